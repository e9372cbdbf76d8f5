import { describe, expect, it } from 'vitest';
import { compareBeforeAfter, type Reading } from '@/lib/core/condenser';
import { F, PSI, REACH_IN, readingOf, stateAt } from '../../support/condenser';

const hour = 3_600_000;
const gauge = { grade: '1A', spanPa: 500 * PSI } as const;
const at = (left: number, airF: number, more: Partial<Reading> = {}) =>
  readingOf(stateAt(REACH_IN, left, F(airF)), { gauge, thermometerSdK: undefined, ...more });

describe('before and after a cleaning', () => {
  it('says what came back, whatever the air did meanwhile', () => {
    const before = at(0.7, 88);
    const c = compareBeforeAfter(REACH_IN, before, at(0.98, 84, { phase: 'after', at: before.at + hour }));
    if (c.status !== 'ok') throw new Error(c.reason);
    expect(c.outcome).toBe('better');
    expect(Math.abs(c.regained.value - 0.4)).toBeLessThan(0.1);
    expect(c.regained.lo).toBeGreaterThan(0);
  });

  it('has no change as an outcome that asks for another cause', () => {
    const before = at(0.7, 88);
    const c = compareBeforeAfter(REACH_IN, before, at(0.71, 87, { phase: 'after', at: before.at + hour }));
    expect(c).toMatchObject({ status: 'ok', outcome: 'no_change' });
    expect(c.sentence).toMatch(/No change after cleaning: look for another cause/);
  });

  it('is surer of a change read with one gauge in one visit than weeks apart', () => {
    const before = at(0.7, 88);
    const width = (after: Reading) => {
      const c = compareBeforeAfter(REACH_IN, before, after);
      return c.status === 'ok' ? c.regained.hi - c.regained.lo : NaN;
    };
    const soon = width(at(0.95, 88, { at: before.at + hour }));
    const later = width(at(0.95, 88, { at: before.at + 500 * hour }));
    expect(soon).toBeLessThan(later * 0.8);
  });

  it('passes on why it cannot say', () => {
    const before = at(0.7, 88);
    expect(compareBeforeAfter(REACH_IN, before, { ...before, airInK: undefined })).toMatchObject({
      status: 'cannot_say',
      reason: 'no_air_reading',
    });
    expect(compareBeforeAfter(REACH_IN, { ...before, steadyMinutes: 1 }, before)).toMatchObject({
      reason: 'not_steady',
    });
  });
});
