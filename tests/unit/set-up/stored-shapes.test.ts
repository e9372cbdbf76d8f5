import { describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { DEFAULT_HYPER, posterior } from '@/lib/core/fouling';
import { STORED_COLUMNS } from '@/lib/database/stored';
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
type Reader = { name: string; version: number; read: (json: unknown) => unknown; write: (value: never) => object };
const WHOLE: [name: string, reader: Reader, value: object][] = [
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
        assumptions: [{ column: 'c', text: 't', rows: 1, lines: [2], examples: ['e'] }], lines: [{ line: 1, cells: ['c'] }],
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

/** The value without one part of it. */
function without(value: unknown, [key, ...rest]: Path): unknown {
  if (Array.isArray(value)) return value.map((inner, i) => (i === Number(key) ? without(inner, rest) : inner));
  const others = Object.entries(value ?? {}).filter(([k]) => k !== key || rest.length > 0);
  return Object.fromEntries(others.map(([k, inner]) => [k, k === key ? without(inner, rest) : inner]));
}
/** The value with a text in it made into one that nobody wrote. */
function otherwise(value: unknown, [key, ...rest]: Path): unknown {
  if (key === undefined) return typeof value === 'string' ? 'no such word' : value;
  if (Array.isArray(value)) return value.map((inner, i) => (i === Number(key) ? otherwise(inner, rest) : inner));
  return Object.fromEntries(Object.entries(value ?? {}).map(([k, inner]) => [k, k === key ? otherwise(inner, rest) : inner]));
}
/** Parts that a record may lack: what was not said, and what earlier ones did not keep. */
const MAY_LACK: Record<string, string[]> = {
  'evidence of a rule': ['wouldHave', 'wouldHaveDueOn'],
  'what happened to a visit': ['startsAt', 'endsAt', 'technicianId', 'from', 'from.startsAt', 'to', 'to.endsAt', 'why'],
  'figures as typed': ['boxK'],
  'answer to an entry': ['note', 'forTablet', 'same', 'clockCorrectedMs', 'visitId'],
  act: ['changed', 'changed.a', 'kitchenIds', 'unitIds', 'taskIds'],
  baseline: ['means'],
  fleet: ['fouling.eyes.ann', 'failures.drain'],
  'own limits': ['limits.0.sd'],
  'choices about a sheet': ['sheet', 'columns', 'columns.1', 'values', 'values.a', 'values.a.b', 'answers', 'answers.a'],
  'note of an import': ['changed.0.before.a', 'changedKitchens'],
  report: ['problems', 'summary', ...['customers', 'newKitchens', 'kitchens', 'units', 'tasks', 'flammable', 'errors', 'notes', 'rowsOnFile', 'updates', 'kitchenUpdates', 'open'].map((key) => `summary.${key}`), 'sheet', 'sheet.assumptions.0.column', 'sheet.assumptions.0.lines', 'unfit'],
  'plan as booked': ['booked'],
  proposal: ['visits.0.reason', 'input.0.mend.id'],
  decision: ['facts.cleaningMinutes'],
  estimate: ['doubts.0.leftOut'],
  'estimate that says nothing': ['condensingK', 'condensingDewK', 'riseK'],
}; // prettier-ignore

/** Texts that are one of a list, or a date; any other may say what it likes. */
const WORDS: Record<string, string[]> = {
  'compressor map': ['units'],
  'questions about a reading': ['list.0.field'],
  belief: ['exposure.placement', 'asOf', 'lastCleanedOn', 'state.live', 'state.weights'],
  quote: ['lines.0.kind'],
  places: ['list.0.precision'],
  report: ['problems.0.severity'],
  proposal: ['unplaced.0.code', 'input.0.mend.at', 'input.0.weight'],
  worth: ['worth.verdict'],
  decision: ['result.ways.0.way', 'result.best', 'result.verdict'],
  estimate: ['status', 'causes.0.id', 'verdict'],
  'estimate that says nothing': ['status', 'reason', 'verdict'],
  isolate: ['step'], recover: ['step', 'recoveredFor'], open: ['step'], braze: ['step', 'joints.0.joint'], drier: ['step', 'tubes.0.line'],
  pressure_test: ['step'], evacuate: ['step'], charge: ['step'], running_check: ['step'],
}; // prettier-ignore

const reads = (read: (json: unknown) => unknown, json: unknown): boolean => {
  try {
    read(json);
    return true;
  } catch (e) {
    if (e instanceof StoredJsonError) return false;
    throw e;
  }
};

describe.each(WHOLE)('stored %s', (name, { version, read, write, name: called }, value) => {
  const json = { ...(JSON.parse(JSON.stringify(value)) as object), v: version };
  const some = parts(json).filter((path) => path[0] !== 'v' && path.every((key) => !(Number(key) > 0) || path[0] === 'columns'));
  const named = (path: Path) => path.join('.');

  it('comes back as it was laid down, and its fault says what it is', () => {
    expect(write(read(json) as never)).toEqual(json);
    expect(() => read({ v: version + 1 })).toThrow(`Stored ${called} cannot be read: version ${version + 1} is newer`);
    expect(called).toMatch(/^[a-z][a-z ]{4,}$/);
  });
  it('may lack what nobody said, and nothing else', () => {
    const lacks = some
      .filter((path) => !/^\d+$/.test(String(path.at(-1))) || path[0] === 'columns')
      .filter((path) => reads(read, without(json, path)));
    expect(lacks.map(named).toSorted()).toEqual((MAY_LACK[name] ?? []).toSorted());
  });
  it('takes no word that is not in its list', () => {
    const refused = some.filter(
      (path) => JSON.stringify(otherwise(json, path)) !== JSON.stringify(json) && !reads(read, otherwise(json, path)),
    );
    expect(refused.map(named).toSorted()).toEqual((WORDS[name] ?? []).toSorted());
  });

  it('is read whole, and refused with any part of it of another kind', () => {
    // Of long lists of numbers the first stands for all.
    const passed = some.filter((path) => !AS_IT_COMES.has(`${name} ${named(path)}`)).filter((path) => reads(read, broken(json, path)));
    expect(passed.map(named)).toEqual([]);
  });
});

it('a policy is kept as it was said, value by value', () => {
  expect(STORED_POLICY.read({ v: 1, risk: 0.2, anything: ['x'] })).toEqual({ risk: 0.2, anything: ['x'] });
  expect(() => STORED_POLICY.read([1])).toThrow(StoredJsonError);
});

it('what an earlier record lacks is filled with what nothing means', () => {
  const none = { customers: 0, newKitchens: 0, kitchens: 0, units: 0, tasks: 0, flammable: 0, errors: 0, notes: 0, rowsOnFile: 0, updates: 0, kitchenUpdates: 0, open: 0 }; // prettier-ignore
  expect(STORED_REPORT.read({ v: 3 })).toEqual({ problems: [], summary: none });
  expect(STORED_CHOICES.read({ v: 1 })).toEqual({ columns: {}, values: {}, answers: {} });
  expect(STORED_MADE.read({ v: 1, customers: ['a'], kitchens: [], units: [], changed: [] })).toEqual({ customers: ['a'], kitchens: [], units: [], changed: [], changedKitchens: [] }); // prettier-ignore
  const report = WHOLE.find(([name]) => name === 'report')?.[2] ?? {};
  const older = JSON.parse(JSON.stringify(report).replace('"column":"c","text":"t","rows":1,"lines":[2],"examples"', '"text":"t","rows":1,"examples"')) as object; // prettier-ignore
  expect(STORED_REPORT.read({ ...older, v: 3 }).sheet?.assumptions).toEqual([
    { column: '', text: 't', rows: 1, lines: [], examples: ['e'] },
  ]);
  // A word of an older program, at whatever depth.
  expect(STORED_ESTIMATE.read({ ...JSON.parse(JSON.stringify(WHOLE.find(([name]) => name === 'estimate')?.[2]).replace('"instruction"', '"words"')), v: 1 })).toMatchObject({ lookNext: [{ look: 'l', instruction: 'i', bits: 1 }] }); // prettier-ignore
});

it('a column that is empty is null, and one of nothing known says that all of it is at fault', () => {
  for (const none of [null, undefined]) expect(STORED_HOURS.readOrNull(none)).toBeNull();
  expect(STORED_HOURS.readOrNull({ v: 1, list: [] })).toEqual([]);
  expect(() => STORED_HOURS.read('hours')).toThrow('Stored hours of a week (version 0) cannot be read: all of it: ');
  expect(() => STORED_HOURS.read({ v: '1', list: [] })).toThrow('(version 0)');
  for (const weekday of [0, 6]) expect(STORED_HOURS.read([{ weekday, from: 'a', to: 'b' }])).toHaveLength(1);
  for (const weekday of [-1, 7, 0.5]) expect(() => STORED_HOURS.read([{ weekday, from: 'a', to: 'b' }])).toThrow('0.weekday');
});

it('what a cleaning left behind, and how long a coil of unknown age had run, stands in beliefs of before as it was taken then', () => {
  const fleet = { fouling: DEFAULT_HYPER, failures: {} };
  const { restore, unknownRunDays: _, ...rest } = DEFAULT_HYPER;
  const { baked: __, ...left } = restore;
  const kept = (fouling: object, v: number) => STORED_FLEET_BELIEF.read({ fouling: { ...fouling, eyes: {} }, failures: {}, v }).fouling;
  expect(kept({ ...rest, restore: left }, 1)).toEqual({ ...DEFAULT_HYPER, restore: { ...left, baked: 1 }, unknownRunDays: 60, eyes: {} });
  expect(kept({ ...rest, restore }, 2)).toEqual({ ...DEFAULT_HYPER, unknownRunDays: 60, eyes: {} });
  expect(kept({ ...rest, restore, unknownRunDays: 9 }, 2).unknownRunDays).toBe(9);
  expect(() => kept({ ...rest, restore }, 3)).toThrow('fouling.unknownRunDays');
  expect(STORED_FLEET_BELIEF.read({ ...STORED_FLEET_BELIEF.write(fleet), v: 1 }).fouling.restore).toEqual(restore);
  const json = JSON.parse(JSON.stringify(STORED_POSTERIOR.write(belief))) as { state: { growth: { restore: { baked?: number } } } };
  delete json.state.growth.restore.baked;
  const { ...growth } = STORED_POSTERIOR.read({ ...json, v: 1 }).state.growth;
  expect(growth.restore.baked).toBe(1);
  expect(() => STORED_POSTERIOR.read({ ...json, v: 2 })).toThrow('state.growth.restore.baked');
  const now = STORED_POSTERIOR.write(belief);
  const withNewestDay = { ...now, v: 4, state: { ...(now.state as object), settled: { bank: 'AAAA' }, today: [{ kind: 'coil' }] } };
  expect(STORED_POSTERIOR.read(withNewestDay)).toEqual(STORED_POSTERIOR.read(now));
  expect(Object.keys(STORED_POSTERIOR.read(now).state).toSorted()).toEqual(['age', 'growth', 'live', 'weights']);
  for (const nothing of [null, 7, { v: 1 }, { v: 3 }, { v: 1, state: 5, fouling: 5 }]) {
    expect(() => STORED_POSTERIOR.read(nothing)).toThrow(StoredJsonError);
    expect(() => STORED_FLEET_BELIEF.read(nothing)).toThrow(StoredJsonError);
  }
});

it('every column that nothing reads says why, in a sentence', () => {
  for (const [column, reader] of Object.entries(STORED_COLUMNS)) if (typeof reader === 'string') expect(reader, column).toMatch(/^[A-Z].{20,}\.$/); // prettier-ignore
});
