import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICY as P, readPolicy } from '@/lib/core/intervals';

const LIMIT = { name: 'head pressure', lnK: -0.4 };

describe('the policy on file', () => {
  it.each([
    ['nothing', undefined],
    ['null', null],
    ['a word', 'policy'],
    ['a number', 7],
    ['a list', [0.3]],
    ['what the program knows nothing of', { colour: 'blue' }],
  ])('of %s is what the program brings', (_, stored) => {
    expect(readPolicy(stored)).toEqual(P);
  });

  it.each([
    ['a number', { risk: 0.3 }],
    ['a nought', { tripCost: 0 }],
    ['a word', { cleanGrade: 'bare' }],
    ['limits', { limits: [LIMIT, { ...LIMIT, lnK: -0.7 }] }],
    ['a limit and how well it is known', { failureLimit: { ...LIMIT, sd: 0.05 } }],
    ['limits of its own', { ownLimits: { coolingLost: 0.2, dischargeK: 380 } }],
    ['all longest intervals', { maxWeeks: { ...P.maxWeeks, coil_cleaning: 30 } }],
  ])('is taken at its word: %s', (_, stored) => {
    expect(readPolicy(stored)).toEqual({ ...P, ...stored });
  });

  it.each([
    ['a number as a word', { risk: '0.3' }],
    ['no number at all', { cleaningCost: NaN }],
    ['without end', { failureCost: Infinity }],
    ['null for a number', { lateDays: null }],
    ['a number for a word', { cleanGrade: 2 }],
    ['no limits', { limits: [] }],
    ['one limit that is no list', { limits: LIMIT }],
    ['a limit without its name', { limits: [LIMIT, { lnK: -0.5 }] }],
    ['a limit without its height', { failureLimit: { name: 'x' } }],
    ['a word for a limit', { failureLimit: 'low' }],
    ['a limit of null', { failureLimit: null }],
    ['own limits, one missing', { ownLimits: { coolingLost: 0.2 } }],
    ['own limits, one a word', { ownLimits: { coolingLost: 0.2, dischargeK: 'hot' } }],
    ['longest intervals as a number', { maxWeeks: 26 }],
    ['longest intervals of null', { maxWeeks: null }],
    ['a longest interval as a word', { maxWeeks: { coil_cleaning: 'long' } }],
  ])('falls back for a damaged value alone: %s', (_, damaged) => {
    expect(readPolicy({ ...damaged, returnWithinDays: 9 })).toEqual({ ...P, returnWithinDays: 9 });
  });

  it('brings the longest interval of kinds of task that came since', () => {
    expect(readPolicy({ maxWeeks: { coil_cleaning: 30 } }).maxWeeks).toEqual({ ...P.maxWeeks, coil_cleaning: 30 });
    expect(readPolicy({ maxWeeks: {} }).maxWeeks).toEqual(P.maxWeeks);
  });
});
