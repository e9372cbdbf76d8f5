import { describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { DEFAULT_HYPER, posterior } from '@/lib/core/fouling';
import { STORED_CHOICE } from '@/lib/database/stored/choices';
import { STORED_BASELINE, STORED_ESTIMATE } from '@/lib/database/stored/estimate';
import { STORED_REPLAY, STORED_WORTH } from '@/lib/database/stored/figures';
import { STORED_FLEET_BELIEF, STORED_OWN_LIMITS, STORED_POSTERIOR } from '@/lib/database/stored/fouling';
import { STORED_CHOICES, STORED_MADE, STORED_REPORT, STORED_SHEETS } from '@/lib/database/stored/imports';
import { STORED_CANDIDATES } from '@/lib/database/stored/places';
import { STORED_BOOKED, STORED_PROPOSAL } from '@/lib/database/stored/planning';
import { STORED_QUOTE } from '@/lib/database/stored/quotes';
import {
  STORED_AUDIT_DETAIL,
  STORED_CHANGE_EVIDENCE,
  STORED_ENTERED,
  STORED_ENTRY_DETAIL,
  STORED_QUESTIONED,
  STORED_VISIT_EVENT,
} from '@/lib/database/stored/records';
import { STORED_SEALED_WORK } from '@/lib/database/stored/sealed';
import { STORED_COMPRESSOR_MAP, STORED_HOURS, STORED_POLICY } from '@/lib/database/stored/shop';
import { StoredJsonError } from '@/lib/database/stored/stored';

// One whole value of each column, and every part of it made into something else in turn: a reader that lets one pass would
// hand it on to whoever counts on it.

const F = { value: 1, lo: 0.5, hi: 2, level: 0.8 };
const B = { value: 1, lo: 0.5, hi: 2 };
const SUM = { cleanings: 1, hours: 2, breakdowns: 3, comebacks: 4, money: 5 };
const DAY = localDate('2026-01-05');
const belief = posterior(
  {
    startedOn: DAY,
    startedClean: true,
    events: [
      { kind: 'coil', on: localDate('2026-02-01'), grade: 'furred', phase: 'before', by: 'ann' },
      { kind: 'cleaning', on: localDate('2026-02-01') },
      { kind: 'trip', on: localDate('2026-02-03'), cause: 'fan' },
      { kind: 'change', on: localDate('2026-02-05'), said: 'more' },
      { kind: 'fan', on: localDate('2026-02-06'), grade: 'sound' },
      { kind: 'reading', on: localDate('2026-02-06'), lnK: -0.2, sd: 0.1, phase: 'before' },
    ],
  },
  { placement: 'fryer', kitchenId: 'k' },
  DEFAULT_HYPER,
);
const happened = { times: 1, years: 2 };
const COST = { total: 1, driving: 1, drivingMinutes: 1, visits: 1, overtime: 1, overtimeMinutes: 1, lateness: 1, latenessMinutes: 1, early: 1, overdue: 1, left: 1 }; // prettier-ignore
const TEN = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
const WEIGHED = { cylinderId: 'c', cylinderWords: 'w', startKg: 1, endKg: 2 };
const AT = { at: 't', paGauge: 1, temperatureK: 294 };

/** Whole values as they lie in their columns. */
const WHOLE: [name: string, reader: { version: number; read: (json: unknown) => unknown }, value: object][] = [
  ['hours', STORED_HOURS, { list: [{ weekday: 1, from: '07:00', to: '09:00' }] }],
  ['compressor map', STORED_COMPRESSOR_MAP, { massFlow: TEN, power: TEN, units: 'C_kg_per_s', ratedSuperheatK: 11 }],
  ['evidence of a rule', STORED_CHANGE_EVIDENCE, { wouldHave: 'FREQ=WEEKLY', wouldHaveDueOn: '2026-01-05' }],
  ['what happened to a visit', STORED_VISIT_EVENT, { startsAt: 'a', endsAt: 'b', technicianId: 'c', from: { startsAt: 'a' }, to: { endsAt: 'b' }, why: 'd' }],
  ['figures as typed', STORED_ENTERED, { boxK: { text: '38', unit: '°F' } }],
  ['questions about a reading', STORED_QUESTIONED, { list: [{ field: 'boxK', question: 'q', answer: 'a' }] }],
  ['answer to an entry', STORED_ENTRY_DETAIL, { note: 'a', forTablet: 'b', same: 'c', clockCorrectedMs: 1, visitId: 'd' }],
  ['act', STORED_AUDIT_DETAIL, { changed: { a: 1 }, kitchenIds: ['a'], unitIds: ['b'], taskIds: ['c'] }],
  ['baseline', STORED_BASELINE, { cleanRiseK: 8, sdK: 1, readings: 2, means: 'm' }],
  ['belief', STORED_POSTERIOR, STORED_POSTERIOR.write(belief)],
  ['fleet', STORED_FLEET_BELIEF, STORED_FLEET_BELIEF.write({ fouling: { ...DEFAULT_HYPER, eyes: { ann: [0.1, 0.2] } }, failures: { drain: { shape: 1, days: 90 } } })], // prettier-ignore
  ['own limits', STORED_OWN_LIMITS, { limits: [{ name: 'n', lnK: -0.5, sd: 0.1 }], failureLimit: { name: 'n', lnK: -0.6 }, passedClean: ['a'], kwhPerDay: [1, 2] }],
  ['quote', STORED_QUOTE, { lines: [{ kind: 'part', what: 'w', partNumber: 'p', quantity: 1, unit: 'pcs', priceCents: 5, taxed: true }] }],
  ['places', STORED_CANDIDATES, { list: [{ lat: 1, lng: 2, label: 'l', precision: 'house', houseNumber: '1', withinM: 5 }] }],
  ['sheet', STORED_SHEETS, { list: [{ name: 'n', rows: [['a']] }] }],
  ['choices about a sheet', STORED_CHOICES, { sheet: 1, columns: { 1: 'a' }, values: { a: { b: 'c' } }, answers: { a: 'b' } }],
  [
    'note of an import', STORED_MADE,
    { customers: ['a'], kitchens: ['b'], units: ['c'], changed: [{ id: 'a', version: 1, before: { a: 1 } }], changedKitchens: [{ id: 'a', version: 1, before: {} }] },
  ],
  [
    'report', STORED_REPORT,
    {
      problems: [{ line: 1, column: 'c', value: 'v', message: 'm', severity: 'error' }],
      summary: { customers: 1, newKitchens: 1, kitchens: 1, units: 1, tasks: 1, flammable: 1, errors: 1, notes: 1, rowsOnFile: 1, updates: 1, kitchenUpdates: 1, open: 1 },
      unfit: { rows: 1, causes: [{ column: 'c', message: 'm', rows: 1, first: [1] }] },
      sheet: {
        columns: [{ at: 1, header: 'h', samples: ['s'], filled: 1, target: 't', chosen: true }], headerLine: 1, rows: 1, sheets: ['s'], chosen: 1, moreGroups: 1,
        groups: [{ target: 't', key: 'k', value: 'v', rows: 1, taken: 't', chosen: true, open: true }],
        questions: [{ id: 'i', text: 't', rows: 1, examples: ['e'], answer: 'a', open: true, options: [{ value: 'v', label: 'l' }] }],
        assumptions: [{ text: 't', rows: 1, examples: ['e'] }], lines: [{ line: 1, cells: ['c'] }],
      },
    },
  ],
  ['plan as booked', STORED_BOOKED, { booked: ['a'] }],
  [
    'proposal', STORED_PROPOSAL,
    {
      visits: [{
        key: 'k', kitchenId: 'k', kitchen: 'n', customer: 'c', timeZone: 'z', technicianId: 't', technician: 'n', startMs: 1, endMs: 2, driveMinutes: 3, taskIds: ['a'], units: 1, overdue: 0,
        reason: { overdue: 1, longestOverdueDays: 1, due: 1, along: 1, furthestDays: 1, detourMinutes: 1, drivingCost: 1, earlyCost: 1, nextDueDay: 1, only: 'o' },
      }],
      unplaced: [{ what: 'w', kitchen: 'k', kitchenId: 'i', code: 'no_skill', message: 'm' }], later: 0, cost: COST,
      input: [{ code: 'c', message: 'm', mend: { at: 'people', id: 'i', label: 'l' }, tasks: 1, weight: 'assumed' }],
      due: { tasks: 1, kitchens: 1, searched: 1 }, couldSaveMinutes: 1, proven: true, kept: 0, searchMs: 1, seed: 1,
    },
  ],
  [
    'replay', STORED_REPLAY,
    { replay: { coils: 1, days: 1, plan: SUM, calendar: SUM, spared: { breakdowns: F, comebacks: F, money: F, hours: 1 } }, sampled: 1, currency: 'USD', from: 'a', to: 'b', calendarWeeks: 12 },
  ],
  [
    'worth', STORED_WORTH,
    { worth: { coils: 1, withoutEnergy: 0, price: 1, energy: F, breakdowns: F, avoided: F, saved: F, verdict: 'pays' }, unseen: 0, more: false, days: 30, from: 'f' },
  ],
  [
    'decision', STORED_CHOICE,
    {
      typed: { coilPrice: 1, coilYears: 1, unitPrice: 1, unitYears: 1, leftYears: 1, useKwh: 1, newKwh: 1, callOut: 1, refrigerantPerKg: 1, interest: 1 },
      facts: { cleanings: happened, callOuts: happened, failures: happened, cleaningMinutes: { ...B, cleanings: 3 }, fleet: { callOuts: happened, failures: happened }, leakKgPerYear: 1, fouling: { now: B, clean: B } },
      costs: { energyPerKwh: 1, cleaning: 1, failure: 1 },
      result: { ways: [{ way: 'go_on', perYear: B, parts: { capital: 1, energy: 1, cleaning: 1, callOuts: 1, leaks: 1, failures: 1 }, cheapest: 0.5, breakEvenPrice: 1 }], best: 'go_on', sure: 0.9, regretPerYear: 1, verdict: 'clear' },
    },
  ],
  [
    'estimate', STORED_ESTIMATE,
    {
      status: 'ok', condensingK: F, condensingDewK: F, riseK: F, cleanRiseK: F, designRiseK: { ...F, repeatSd: 1, means: 'm' }, conductanceLost: F, coolingLostHotDay: F,
      extraEnergyKwhPerDay: F, extraCostPerDay: { ...F, currency: 'USD' }, cannotKeepUp: false, dischargeHotDayK: { now: F, clean: F }, headHotDayPaGauge: { now: F, clean: F },
      cutoutAirK: { now: F, clean: F }, causes: [{ id: 'coil_fouling', weight: 1, for: ['a'], against: ['b'], next: 'n' }], lookNext: [{ look: 'l', instruction: 'i', bits: 1 }],
      verdict: 'clean_it', sentence: 's', doubts: [{ field: 'boxK', question: 'q', leftOut: true }], assumptions: ['a'],
    },
  ],
  ['estimate that says nothing', STORED_ESTIMATE, { status: 'cannot_say', condensingK: F, condensingDewK: F, riseK: F, reason: 'not_steady', causes: [], verdict: 'cannot_say', sentence: 's', doubts: [] }],
  ...[
    { step: 'isolate', provenDead: true, flammable: { ventilated: true, detector: true, noIgnition: true, roomM2: 9 } },
    { step: 'recover', levelPaGauge: 1, recoveredFor: 'reuse', ...WEIGHED },
    { step: 'open', how: 'cut' },
    { step: 'braze', joints: [{ joint: 'copper_copper', count: 1 }], nitrogen: true, wetRag: true, fireWatchMinutes: 30 },
    { step: 'drier', drier: 'd', drierBeforeM3: 1, drierNowM3: 1, condenserBeforeM3: 1, condenserNowM3: 1, capillary: { boreM: 1, lengthM: 1 }, tubes: [{ line: 'liquid', before: null, now: null, lengthM: 1 }] },
    { step: 'pressure_test', platePaGauge: 1, gaugeDivisionPa: 1, start: AT, end: AT },
    { step: 'evacuate', limitMicrons: 500, readings: [{ minutes: 1, microns: 400 }] },
    { step: 'charge', plateKg: 1, targetKg: 1, band: [1, 2], ...WEIGHED },
    { step: 'running_check', readingId: 'r', minutes: 20 },
  ].map((work): (typeof WHOLE)[number] => [work.step, STORED_SEALED_WORK, work]),
]; // prettier-ignore

/** Parts that are kept as they come: figures of their own under each kind of act, and what was on file before. */
const AS_IT_COMES = new Set(['act changed.a', 'note of an import changed.0.before.a']);

type Path = (string | number)[];
const parts = (value: unknown, at: Path = []): Path[] =>
  typeof value === 'object' && value !== null
    ? Object.entries(value).flatMap(([key, inner]) => [[...at, key], ...parts(inner, [...at, key])])
    : [];
/** The value with one part of it made into something that it cannot be. */
function broken(value: unknown, [key, ...rest]: Path): unknown {
  if (key === undefined) return typeof value === 'object' && value !== null ? 7.5 : { not: 'so' };
  if (Array.isArray(value)) return value.map((inner, i) => (i === Number(key) ? broken(inner, rest) : inner));
  return Object.fromEntries(Object.entries(value ?? {}).map(([k, inner]) => [k, k === key ? broken(inner, rest) : inner]));
}

describe.each(WHOLE)('stored %s', (name, { version, read }, value) => {
  it('is read whole, and refused with any part of it of another kind', () => {
    const json = { ...(JSON.parse(JSON.stringify(value)) as object), v: version };
    expect(() => read(json)).not.toThrow();
    const passed = parts(json)
      .filter((path) => path[0] !== 'v' && !AS_IT_COMES.has(`${name} ${path.join('.')}`))
      // Long lists of numbers: the first stands for all.
      .filter((path) => path.every((key) => !(Number(key) > 0)))
      .filter((path) => {
        try {
          read(broken(json, path));
          return true;
        } catch (e) {
          if (e instanceof StoredJsonError) return false;
          throw e;
        }
      })
      .map((path) => path.join('.'));
    expect(passed).toEqual([]);
  });
});

it('a policy is kept as it was said, value by value', () => {
  expect(STORED_POLICY.read({ v: 1, risk: 0.2, anything: ['x'] })).toEqual({ risk: 0.2, anything: ['x'] });
  expect(() => STORED_POLICY.read([1])).toThrow(StoredJsonError);
});
