import { describe } from 'vitest';
import { addDays, type LocalDate } from '@/lib/core/calendar';
import { conditionsOf, condenserUnitOf } from '@/lib/core/condenser/from-record';
import {
  cleaningSentence,
  cleaningSources,
  cleaningWorth,
  course,
  decide,
  estimateOnFile,
  estimateVisit,
  evidenceOf,
  extraEnergyToday,
  extraKwh,
  fanAhead,
  fanDays,
  fitFleet,
  kitchenBeliefs,
  limitDates,
  lnKOf,
  lostToday,
  monthlyLoss,
  ownLimits,
  returnVisits,
  seasonsOf,
  setAsideWhy,
  settleFleet,
  sumOf,
  timesPrice,
  visitConsequences,
  type DueCoil,
  type FindingFact,
  type FleetBelief,
  type ReadingToEstimate,
  type TaskOnFile,
  type UnitBelief,
  type UnitFile,
} from '@/lib/core/evidence';
import { foresee } from '@/lib/core/evidence/foresee';
import { cyclePicture, headPicture } from '@/lib/core/evidence/pictures';
import { returnsAfter, type ReturnOnFile } from '@/lib/core/evidence/return-visits';
import { quarterOf } from '@/lib/core/evidence/seasons';
import { DEFAULT_HYPER } from '@/lib/core/fouling';
import { DEFAULT_POLICY } from '@/lib/core/intervals';
import { keptAnswers } from '../../support/kept-answers';
import { emptyFile, on } from './unit-file';

// A regression, nothing more: see tests/support/kept-answers.ts. Anew by `node scripts/keep-answers.mjs evidence`.

const START = on('2025-01-06');
const day = (n: number) => addDays(START, n);
const LOOKED_DAYS = [70, 150, 230, 320, 400];
const TODAY = day(480);
const FLEET: FleetBelief = { fouling: DEFAULT_HYPER, failures: { 'drain/walk_in_freezer': { shape: 3, days: 900 } } };

const found = (n: number, aspect: FindingFact['aspect'], grade: string, phase: FindingFact['phase'] = 'found', by?: string): FindingFact => ({ on: day(n), aspect, grade, phase, ...(by ? { by } : {}) }); // prettier-ignore

const freezer = condenserUnitOf({ kind: 'walk_in_freezer', refrigerant: 'R404A', placement: 'bakery', application: 'low', expansion: 'valve', circuitAccess: 'ports', cutoutPaGauge: 2.76e6 }, { altitudeM: 200 }); // prettier-ignore
const KITCHEN: UnitFile[] = [
  emptyFile({
    unitId: 'u1',
    startedOn: START,
    cleanings: LOOKED_DAYS.map(day),
    findings: [...LOOKED_DAYS.flatMap((n, i) => [found(n, 'coil', ['furred', 'matted', 'packed', 'matted', 'furred'][i] ?? 'bare', 'found', 'ann'), found(n, 'coil', i === 2 ? 'furred' : 'bare', 'left')]), found(230, 'condenser_fan', 'worn')], // prettier-ignore
    trips: [
      { on: day(228), cause: null },
      { on: day(380), cause: 'fan' },
    ],
    changes: [{ on: day(330), said: 'less' }],
  }),
  emptyFile({
    unitId: 'u2',
    unit: freezer,
    conditions: conditionsOf(freezer, { hotDayAirK: 308 }, 'USD'),
    startedOn: day(20),
    cleanings: [day(150)],
    washed: [day(320)],
    findings: [found(150, 'coil', 'filmed'), found(320, 'coil', 'matted'), found(400, 'coil', 'bare'), found(10, 'drain', 'runs'), found(150, 'drain', 'blocked'), found(320, 'drain', 'slow'), found(320, 'ice', 'block'), found(320, 'evaporator_fan', 'failed'), found(320, 'gasket', 'torn'), found(400, 'ice', 'dry', 'left')], // prettier-ignore
  }),
  emptyFile({ unitId: 'u3', unit: condenserUnitOf({ kind: 'display', refrigerant: 'R999', placement: 'bar' }, {}), startedOn: day(100) }),
];

const seen = { coilGrade: null, fanGrade: null, airPathGrade: null, evaporatorFanGrade: null, evaporatorCoilGrade: null, iceGrade: null };
const read = (
  readingId: string,
  n: number,
  headPaGauge: number | null,
  more: Partial<ReadingToEstimate> & { suction?: number; clamp?: number } = {},
): ReadingToEstimate => {
  // prettier-ignore
  const { suction = 118_000, clamp = null, ...rest } = more;
  const at = Date.parse(`${day(n)}T16:00:00Z`) + (rest.phase === 'after' ? 3_600_000 : 0);
  const phase = rest.phase ?? 'before';
  const record = { at, phase, headPaGauge, airInK: 303, suctionPaGauge: headPaGauge === null ? null : suction, condensingClampK: clamp, boxK: 277, steadyMinutes: 25 }; // prettier-ignore
  return { readingId, unitId: 'u1', at, phase, record, seen, ...rest };
};
const READINGS: [number, ReadingToEstimate[]][] = [
  [70, [read('a', 70, 1.27e6), read('b', 70, 1.06e6, { phase: 'after' })]],
  [
    150,
    [read('d', 150, 1.07e6, { phase: 'after' }), read('c', 150, 1.42e6, { seen: { ...seen, coilGrade: 'matted', fanGrade: 'sound' } })],
  ],
  [230, [read('e', 230, null, { clamp: 326 }), read('f', 230, 1.7e6, { seen: { ...seen, fanGrade: 'failed' } }), read('x', 230, 1e6, { unitId: 'nobody’s' })]], // prettier-ignore
  [400, [read('g', 400, 1.3e6)]],
];

/** The kitchen with every reading estimated by what was known before it. */
function estimated(): { files: UnitFile[]; told: unknown[] } {
  let files: UnitFile[] = KITCHEN;
  const told: unknown[] = [];
  for (const [n, readings] of READINGS) {
    const after = estimateVisit(files, readings, day(n));
    files = after.files;
    for (const { readingId, columns, fact, result } of after.estimates)
      told.push([
        readingId,
        columns,
        fact,
        result.sentence,
        result.status === 'ok' ? [result.extraCostPerDay, result.conductanceLost] : result.reason,
      ]);
  }
  return { files, told };
}
let made: ReturnType<typeof estimated> | undefined;
const whole = () => (made ??= estimated());
let held: UnitBelief[] | undefined;
const beliefs = () => (held ??= kitchenBeliefs(whole().files, FLEET));
const belief = (i: number): UnitBelief => {
  const b = beliefs()[i];
  if (!b) throw new Error('no such unit');
  return b;
};
const own = (i: number, settings = DEFAULT_POLICY.ownLimits) => {
  const { file, evidence } = belief(i);
  return ownLimits(file.unit, evidence.baseline, file.conditions, settings);
};

const task = (unitId: string, kindKey: string, over: Partial<TaskOnFile> = {}): TaskOnFile => ({
  taskId: `${kindKey} of ${unitId}`, unitId, kindKey, rule: 'FREQ=WEEKLY;INTERVAL=12', anchor: 'last_completed', anchorDate: START, locked: false, minWeeks: 1,
  maxWeeks: 60, dueOn: day(400), lastDoneOn: day(320), doneOn: [day(320)], mine: null, lastChangeOn: null, lastHeldRule: null, ...over,
}); // prettier-ignore

const visitOn = (n: number, done: string[]) => ({ on: day(n), doneTaskIds: new Set(done), preferredWeekday: null, alsoDue: [day(n + 49)] });
const decided = (i: number, n: number, t: TaskOnFile, done = true) => decide(t, visitOn(n, done ? [t.taskId] : []), belief(i), { rules: DEFAULT_POLICY, hyper: DEFAULT_HYPER, own: own(i) }); // prettier-ignore

const FILES: Record<string, () => unknown> = {
  'readings of four visits': () => Object.fromEntries(whole().told.map((t, i) => [`reading ${i + 1}`, t])),
  'without a price no money': () => {
    const file = { ...emptyFile({ startedOn: START }), conditions: { ...emptyFile().conditions, priceKnown: false } };
    const { result } = estimateOnFile(file, read('a', 70, 1.4e6), day(70));
    return result.status === 'ok' ? [result.extraCostPerDay, result.assumptions] : result.reason;
  },
  'evidence of the files': () => Object.fromEntries(whole().files.map((f) => [f.unitId, evidenceOf(f)])),
  'beliefs of the kitchen': () =>
    beliefs().map(({ fouling, failures }) => [fouling.rate, fouling.lnK, fouling.residue, fouling.evidence, Object.values(failures).map((f) => [f.meanDays, f.evidence])]), // prettier-ignore
  'one of them anew, the others as they were': () => {
    const told = new Map(beliefs().map((b) => [b.file.unitId, b.fouling]));
    return kitchenBeliefs(whole().files.slice(0, 1), FLEET, told).map((b) => b.fouling.rate);
  },
  'the fleet’s lessons': () => {
    const many = Array.from({ length: 4 }, (_, i) =>
      whole().files.map((f) => ({ ...f, unitId: `${f.unitId}${i}`, kitchenId: `k${i}` })),
    ).flat();
    const { fouling, failures } = fitFleet(many, 'june');
    return { version: fouling.modelVersion, lnRate: fouling.lnRate, restore: fouling.restore, failures };
  },
  'how belief went': () =>
    Object.fromEntries(course(belief(0), FLEET).map((p, i) => [`${i + 1}`, [p.on, p.stage, p.median, p.low, p.high]])),
  'what is to come': () => ({
    fan: fanAhead(belief(0).fouling, TODAY, 120, 4),
    early: fanAhead(belief(1).fouling, START, 60, 1),
    limits: limitDates(belief(0).fouling, own(0)?.limits ?? [], TODAY).map((l) => [l.limit.name, l.quantiles, l.ever]),
    days: [fanDays(TODAY, null), fanDays(TODAY, addDays(TODAY, 90)), fanDays(TODAY, addDays(TODAY, 900))],
  }),
  'what was foreseen': () => [150, 230, 320, 400, 401].map((n) => foresee(whole().files, day(n), FLEET)),
  'season by season': () => ({
    seasons: seasonsOf(whole().files, FLEET, TODAY, 6),
    quarters: [on('2026-01-01'), on('2026-12-31')].map(quarterOf),
  }),
};

const LIMITS: Record<string, () => unknown> = {
  'limits of its own': () =>
    [own(0), own(1), own(2)].map((o) => o && { ...o, kwhPerDay: o.kwhPerDay.slice(0, 8), rows: o.kwhPerDay.length }),
  'limits passed already': () => {
    const { file, evidence } = belief(0);
    const hot = ownLimits(file.unit, evidence.baseline, { ...file.conditions, hotDayAirK: 328, cleanRunHoursPerDay: 23 }, { coolingLost: 0.9, dischargeK: 300 }); // prettier-ignore
    const beyond = ownLimits(file.unit, evidence.baseline, { ...file.conditions, hotDayAirK: 372 }, DEFAULT_POLICY.ownLimits);
    const year = ownLimits({ ...file.unit, cutoutPaGauge: undefined }, evidence.baseline, { ...file.conditions, airProfile: [{ airK: 290, share: 1 }, { airK: 305, share: 1 }] }, { coolingLost: 0.05, dischargeK: 350 }); // prettier-ignore
    return [hot, beyond, year];
  },
  'energy of a deposit': () =>
    [0, 0.05, 0.1, 0.74, 2.2, 3].map((y) => [extraKwh({ kwhPerDay: [0, 0.1, 0.3, 0.4] }, y), extraKwh({ kwhPerDay: [1] }, y)]),
  'a picture of head against air': () => {
    const { file, evidence } = belief(0);
    const points = [{ at: 1, phase: 'before', airK: 303, headPaGauge: 1.3e6, clampK: null }, { at: 2, phase: 'after', airK: 285, headPaGauge: null, clampK: 318 }, { at: 3, phase: 'log', airK: 303, headPaGauge: null, clampK: null }]; // prettier-ignore
    const picture = headPicture(file, evidence.baseline, { median: -0.3, low: -0.5, high: -0.1 }, points);
    const few = <T>(list: readonly T[]) => list.filter((_, i) => i % 7 === 0);
    const clamps = headPicture({ ...file, unit: { ...file.unit, cutoutPaGauge: undefined, circuitAccess: 'ports' } }, evidence.baseline, { median: 0, low: 0, high: 0 }, points.slice(1)); // prettier-ignore
    return {
      ...picture,
      clean: few(picture?.clean ?? []),
      now: few(picture?.now ?? []),
      nowBest: few(picture?.nowBest ?? []),
      nowWorst: few(picture?.nowWorst ?? []),
      clamps: [clamps?.by, clamps?.cutout, clamps?.clean.length, clamps?.clean.at(-1)],
      bare: headPicture({ ...file, unit: { ...file.unit, circuitAccess: 'ports' } }, evidence.baseline, { median: 0, low: 0, high: 0 }, [])
        ?.by,
      none: headPicture(belief(2).file, evidence.baseline, { median: 0, low: 0, high: 0 }, []),
    };
  },
  'a picture of the cycle': () => {
    const reading = { at: 0, phase: 'log' as const, headPaGauge: 1.3e6, airInK: 303, suctionPaGauge: 118_000 };
    const picture = cyclePicture(belief(0).file.unit, reading);
    return { cycle: picture?.cycle, dome: picture?.dome.filter((_, i) => i % 11 === 0), none: cyclePicture(belief(2).file.unit, reading) };
  },
};

const standing = (over: Partial<DueCoil> = {}): DueCoil => ({ ratePerDay: 0.004, rateSdPerDay: 0.001, lnK: -0.2, lnKSd: 0.08, days: 30, own: own(0), dueInDays: 12, lastsDays: 61, pricePerKwh: 0.2, ...over }); // prettier-ignore
const HOT = { failureLimit: DEFAULT_POLICY.failureLimit, failureChancePerDay: 0.05 };
const PRICES = { cleaningCost: 60, failureCost: 1200 };

const MONEY: Record<string, () => unknown> = {
  'lost and dear today': () => {
    const units = [standing(), standing({ lnK: -0.6, lnKSd: 0.2, days: -3 }), standing({ own: null }), standing({ lnK: 0.1, days: 5 })];
    const energy = extraEnergyToday(units);
    return { lost: units.map(lostToday), energy, money: timesPrice(energy, 0.3), none: [timesPrice(energy, null), extraEnergyToday([standing({ own: null })])], month: [monthlyLoss(units), monthlyLoss([])] }; // prettier-ignore
  },
  'sums of figures': () => {
    const f = (value: number, lo: number, hi: number) => ({ value, lo, hi });
    return [
      sumOf([f(10, 6, 18)]),
      sumOf([f(10, 6, 18), null, f(3, 0, 4), f(-1, -2, 5)]),
      sumOf([null]),
      sumOf([f(5, 4.9, 5.1), f(5, 1, 20)]),
    ];
  },
  'what cleanings are worth': () => {
    const some = [standing(), standing({ pricePerKwh: null, lnK: -0.7 }), standing({ dueInDays: 0, ratePerDay: -0.001, lastsDays: 14 })];
    const cases = { some, one: [standing({ lnK: -0.9 })], clean: [standing({ lnK: 0, ratePerDay: 0.0005 })] };
    return Object.fromEntries(
      Object.entries(cases).map(([name, coils]) => {
        const worth = cleaningWorth(coils, PRICES, HOT);
        return [name, worth && [worth, cleaningSentence(worth, 'USD', 30), cleaningSources(worth, PRICES, 'USD', 0.05)]];
      }),
    );
  },
  'where a fleet settles': () =>
    settleFleet(
      [
        { unitId: 'u1', kitchenId: 'k', posterior: belief(0).fouling, own: own(0), pricePerKwh: 0.2, bounds: {}, heldWeeks: null },
        {
          unitId: 'u2',
          kitchenId: 'k',
          posterior: belief(1).fouling,
          own: own(1),
          pricePerKwh: null,
          bounds: { maxWeeks: 13 },
          heldWeeks: null,
        },
        { unitId: 'u3', kitchenId: 'l', posterior: belief(2).fouling, own: null, pricePerKwh: 0.2, bounds: {}, heldWeeks: 9 },
      ],
      DEFAULT_POLICY,
    ),
  'no fleet': () => settleFleet([], DEFAULT_POLICY),
};

const figures = { value: 14, lo: 12, hi: 16, level: 0.8 as const };
const fact = {
  at: 0,
  on: START,
  phase: 'before' as const,
  designRiseK: figures,
  verdict: 'fine' as const,
  leading: null,
  fanFailed: false,
};
const file = (id: string, cause: string, over: Partial<ReturnOnFile> = {}): ReturnOnFile => ({ id, cause, open: true, visitId: null, foundOn: [day(320)], ...over }); // prettier-ignore

const VISITS: Record<string, () => unknown> = {
  'why a reading says nothing of the coil': () => [
    setAsideWhy(fact),
    setAsideWhy({ ...fact, fanFailed: true }),
    setAsideWhy({ ...fact, verdict: 'look_elsewhere', leading: 'low_charge' }),
    setAsideWhy({ ...fact, verdict: 'look_elsewhere', leading: 'coil_fouling' }),
    setAsideWhy({ ...fact, verdict: 'look_elsewhere' }),
    ...[figures, { ...figures, lo: 0 }, { ...figures, hi: 12 }, null].map((designRiseK) => lnKOf({ ...fact, designRiseK }, { cleanRiseK: 13, sdK: 1, readings: 2 })), // prettier-ignore
  ],
  'decisions on a coil': () => ({
    done: decided(0, 400, task('u1', 'coil_cleaning')),
    before: decided(0, 400, task('u1', 'coil_cleaning', { lastChangeOn: day(390), doneOn: [day(320), day(395)] })),
    elsewhere: decided(0, 400, task('u1', 'coil_cleaning'), false),
    locked: decided(0, 400, task('u1', 'coil_cleaning', { locked: true, rule: 'FREQ=WEEKLY;INTERVAL=30' })),
    contract: decided(0, 400, task('u1', 'coil_cleaning', { anchor: 'calendar', maxWeeks: 8 })),
    ended: decided(0, 400, task('u1', 'coil_cleaning', { rule: 'FREQ=WEEKLY;INTERVAL=12;UNTIL=20260101' })),
    mine: decided(0, 400, task('u1', 'coil_cleaning', { rule: 'FREQ=WEEKLY;INTERVAL=8', mine: { fromRule: 'FREQ=WEEKLY;INTERVAL=16', toRule: 'FREQ=WEEKLY;INTERVAL=8' } })), // prettier-ignore
    never: decided(0, 400, task('u1', 'coil_cleaning', { lastDoneOn: null, doneOn: [] }), false),
  }),
  'decisions on what is looked at': () => ({
    ice: decided(1, 320, task('u2', 'evaporator_inspection')),
    drain: decided(1, 320, task('u2', 'drain_inspection', { lastDoneOn: day(150) })),
    gasket: decided(1, 320, task('u2', 'gasket_check')),
  }),
  'what follows from a visit': () => {
    const tasks = ['u1', 'u2', 'u3'].flatMap((u) => ['coil_cleaning', 'drain_inspection'].map((k) => task(u, k, u === 'u2' ? { lastDoneOn: day(5), doneOn: [] } : {}))); // prettier-ignore
    const visit = {
      ...visitOn(
        320,
        tasks.slice(0, 4).map((t) => t.taskId),
      ),
      id: 'v',
      unitIds: new Set(['u1', 'u2']),
    };
    const returns = new Map([['u2', [file('r1', 'return:drain_blocked', { foundOn: [day(150)] }), file('r2', 'return:ice_block', { foundOn: [day(150)] })]]]); // prettier-ignore
    const out = visitConsequences({ files: whole().files, tasks, visit, returns, lookedAt: new Map([['u2', new Set(['drain', 'ice'])]]) }, FLEET, DEFAULT_POLICY); // prettier-ignore
    return { ...out, decisions: out.decisions.map(({ record, held: h, ...d }) => [d, record?.reason, h?.reason]), beliefs: out.beliefs.map((b) => [b.belief.file.unitId, b.own === undefined ? 'as it was' : b.own && b.own.limits]), foresights: out.foresights.length }; // prettier-ignore
  },
  'who is called back': () => {
    const looks = [
      found(320, 'ice', 'block'),
      found(320, 'drain', 'blocked'),
      found(320, 'coil', 'packed'),
      found(320, 'coil', 'packed', 'left'),
    ];
    const visit = { id: 'v', on: day(320) };
    const at = (findings: FindingFact[], onFile: ReturnOnFile[], looked?: string[], trips: LocalDate[] = [day(318)]) => returnsAfter({ findings, trips: trips.map((t) => ({ on: t, cause: null })), cleanings: [day(230), day(320)] }, visit, onFile, looked && new Set(looked), DEFAULT_POLICY); // prettier-ignore
    return {
      all: returnVisits(day(320), looks, true, 7),
      none: returnVisits(day(321), looks, false, 7),
      fresh: at(looks, []),
      again: at(
        looks,
        [file('a', 'return:ice_block', { foundOn: [day(200)] }), file('b', 'return:drain_blocked', { visitId: 'v' })],
        ['ice', 'drain'],
      ),
      met: at([found(320, 'drain', 'runs')], [file('a', 'return:drain_blocked', { foundOn: [day(200)] }), file('c', 'look:drain', { foundOn: [day(200)] })], ['drain'], []), // prettier-ignore
      still: at([found(320, 'drain', 'blocked'), found(320, 'gasket', 'torn')], [file('d', 'look:gasket', { foundOn: [day(200)] }), file('e', 'look:gasket', { foundOn: [day(200)], open: false })], ['gasket'], []), // prettier-ignore
      since: at([...looks, found(330, 'coil', 'bare')], [], []),
      tripped: at([], [file('t', 'return:high_pressure_trip', { foundOn: [day(319)], open: false })], ['coil']),
      own: at(looks, [file('o', 'return:coil_packed', { visitId: 'v', open: false })], undefined),
    };
  },
};

describe('kept answers of evidence', () => {
  keptAnswers(import.meta.dirname, { ...FILES, ...LIMITS, ...MONEY, ...VISITS });
});
