import { describe } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import { PLACEMENTS, UNIT_KINDS, type Placement } from '@/lib/core/equipment/build';
import { GRADES, type CoilGrade } from '@/lib/core/findings/grades';
import {
  afterCleaning,
  ahead,
  asIfToday,
  beforeKitchen,
  crossedWithin,
  daysSinceClean,
  daysToRisk,
  defaultFailurePrior,
  DEFAULT_HYPER,
  failurePosterior,
  fitFailurePrior,
  fitHyper,
  fleetPosteriors,
  forecast,
  stepAhead,
  gradeChances,
  learnHumidity,
  lnKAhead,
  meanDeposit,
  posterior,
  priorFailure,
  seasonFactor,
  updatePosterior,
  usualDays,
  washedThrough,
  type Exposure,
  type FleetUnit,
  type FoulingPosterior,
  type Hyper,
  type Inspection,
  type UnitEvent,
  type UnitHistory,
} from '@/lib/core/fouling';
import { passage } from '@/lib/core/fouling/first-passage';
import { learnEyes, learnScales, learnSeasons } from '@/lib/core/fouling/learn';
import { pieceOf } from '@/lib/core/fouling/pieces';
import { gammaQ, lnGamma, logNormalCdf, normalCdf } from '@/lib/core/fouling/special';
import { RandomStream } from '@/lib/core/numerics/random';
import { keptAnswers } from '../../support/kept-answers';

// A regression, nothing more: see tests/support/kept-answers.ts. Anew by `node scripts/keep-answers.mjs fouling`.

const START = localDate('2024-02-05');
const day = (n: number) => addDays(START, n);
const coil = (n: number, grade: CoilGrade, phase: 'before' | 'after' = 'before', by?: string): UnitEvent => ({ kind: 'coil', on: day(n), grade, phase, by }); // prettier-ignore
const reading = (n: number, lnK: number, sd = 0.06, phase: 'before' | 'after' = 'before'): UnitEvent => ({ kind: 'reading', on: day(n), lnK, sd, phase }); // prettier-ignore
const cleaned = (n: number, deep?: boolean): UnitEvent => ({ kind: 'cleaning', on: day(n), deep });
const history = (events: readonly UnitEvent[], startedClean = true): UnitHistory => ({ startedOn: START, startedClean, events });

const STEADY = [coil(60, 'furred'), reading(60, -0.2), cleaned(60), coil(60, 'bare', 'after'), reading(60, -0.02, 0.05, 'after'), coil(130, 'matted'), reading(130, -0.33), cleaned(130)]; // prettier-ignore
const HISTORIES: Record<string, [UnitHistory, Exposure]> = {
  'nothing seen yet': [history([]), { placement: 'fryer', kitchenId: 'a' }],
  'nothing seen, start unknown': [history([], false), { placement: 'bakery', kitchenId: 'a' }],
  'a steady line': [history(STEADY), { placement: 'line', kitchenId: 'a' }],
  'unknown start, levels off': [history([coil(20, 'matted'), cleaned(20), coil(80, 'furred'), coil(200, 'matted'), coil(400, 'matted'), reading(500, -0.62), reading(700, -0.64)], false), { placement: 'wok', kitchenId: 'a' }], // prettier-ignore
  'feeds on itself': [history([coil(60, 'bare'), coil(120, 'filmed'), coil(160, 'furred'), coil(190, 'packed'), cleaned(190), coil(250, 'bare'), coil(380, 'packed')]), { placement: 'griddle', kitchenId: 'b' }], // prettier-ignore
  'residue, then washed through': [history([coil(90, 'packed'), cleaned(90), reading(91, -0.15), coil(180, 'packed'), cleaned(180), reading(181, -0.24, 0.04), coil(270, 'packed'), cleaned(270, true), reading(271, -0.03), coil(300, 'filmed')]), { placement: 'charbroiler', kitchenId: 'b' }], // prettier-ignore
  'a dead fan, a wild reading, one set aside, a trip': [history([reading(30, -0.05), { kind: 'fan', on: day(50), grade: 'failed' }, reading(50, -1.4), reading(55, -1.2), { kind: 'fan', on: day(58), grade: 'worn' }, reading(60, -0.1), reading(70, -2.5, 0.05), coil(75, 'filmed'), reading(75, -1.1), { kind: 'reading', on: day(80), lnK: -0.4, sd: 0.1, phase: 'before', setAside: 'unsteady' }, reading(81, NaN), reading(82, -0.1, 0), { kind: 'trip', on: day(90) }, { kind: 'trip', on: day(91), cause: 'fan' }, { kind: 'fan', on: day(95), grade: 'failed' }, cleaned(95), reading(99, -0.1)]), { placement: 'back_of_house', kitchenId: 'b' }], // prettier-ignore
  'breathes more from a day on, then less': [history([...STEADY, { kind: 'change', on: day(140), said: 'more' }, coil(170, 'matted'), cleaned(170), { kind: 'change', on: day(400), said: 'less' }, coil(460, 'filmed')]), { placement: 'bar', kitchenId: 'c' }], // prettier-ignore
};

const SEASONAL: Hyper = { ...DEFAULT_HYPER, modelVersion: `${DEFAULT_HYPER.modelVersion}+season`, season: { outdoors: { share: 0.7, kappa: 8, peak: 160 } }, eyes: { hasty: [0.03, 0.1, 0.2, 0.3, 0.4] } }; // prettier-ignore

/** All that is told of a coil; of the filter behind it sums by which any change of it shows. */
function told({ state, ...p }: FoulingPosterior) {
  const filter = state.live.reduce((sum, x, i) => sum + x * Math.cos(i), 0);
  return {
    ...p,
    fromKitchen: p.fromKitchen.slice(0, 3),
    age: state.age,
    filter,
    weights: state.weights.reduce((sum, w, i) => sum + w * i, 0),
  };
}

function lookedAhead(p: FoulingPosterior, hyper: Hyper) {
  const from = addDays(p.asOf, 20);
  const a = ahead(p, from);
  const fresh = afterCleaning(p, from);
  const washed = washedThrough(fresh);
  return {
    crossed: [0, 5, 30, 90, 365].map((days) => crossedWithin(a, -0.32, days)),
    fresh: [30, 120, 900].map((days) => crossedWithin(fresh, -0.3, days)),
    washed: [crossedWithin(washed.ahead, -0.3, 120), washed.left],
    days: [0.05, 0.3, 0.8].map((risk) => daysToRisk(fresh, -0.4, risk)),
    soon: daysToRisk(fresh, -0.6, 0.9, 60),
    grades: gradeChances(a, hyper),
    lnK: [lnKAhead(a), lnKAhead(fresh)],
    deposits: [meanDeposit(a), meanDeposit(fresh), meanDeposit(washed.ahead)],
    gains: [0, 20, 40].map((id) => stepAhead(a, id, 45, { fresh: 0.2, deposit: 0.2, rate: 0.004 }).gain),
    piece: pieceOf(a, 4),
    usual: usualDays(p, hyper, 0.3),
    forecast: forecast(p, { name: 'cooling', lnK: -0.5 }),
    later: forecast(p, { name: 'cooling', lnK: -0.25, sd: 0.05 }, from).quantiles,
  };
}

const COURSES = Object.fromEntries(
  Object.entries(HISTORIES).map(([name, [h, exposure]]) => [`a coil: ${name}`, () => told(posterior(h, exposure, DEFAULT_HYPER))]),
);
const AHEAD = Object.fromEntries(
  ['a steady line', 'unknown start, levels off', 'feeds on itself', 'residue, then washed through'].map((name) => [
    `ahead of: ${name}`,
    () => {
      const [h, exposure] = HISTORIES[name]!;
      return lookedAhead(posterior(h, exposure, DEFAULT_HYPER), DEFAULT_HYPER);
    },
  ]),
);

const OUTDOORS: Exposure = { placement: 'outdoors', kitchenId: 'd' };
const YEARS = [90, 200, 300, 400, 480, 560, 700, 800].flatMap((n, i) => [coil(n, i % 3 === 0 ? 'packed' : 'furred', 'before', i % 2 ? 'hasty' : 'calm'), cleaned(n)]); // prettier-ignore

/** A small fleet, grown by a rule of its own: deposits at a rate by kitchen and place, read off by grade, faster in spring outdoors. */
function fleet(): FleetUnit[] {
  const random = new RandomStream(7, 'kept');
  const places: Placement[] = ['fryer', 'line', 'outdoors', 'outdoors', 'bar', 'outdoors'];
  return places.flatMap((placement, u) => {
    const rate = (placement === 'fryer' ? 0.005 : 0.0022) * Math.exp(0.3 * random.normal());
    const events: UnitEvent[] = [];
    let deposit = 0;
    for (let n = 45 + 7 * u, before = 0; n < 900; before = n, n += 40 + random.whole(0, 30)) {
      for (let d = before; d < n; d++) deposit += rate * (placement === 'outdoors' && (d + 35) % 365 > 110 && (d + 35) % 365 < 170 ? 6 : placement === 'outdoors' ? 0.25 : 1); // prettier-ignore
      const seen = random.chance(0.06)
        ? random.whole(0, 4)
        : [0.05, 0.15, 0.32, 0.6].filter((t) => deposit + 0.04 * random.normal() > t).length;
      events.push(coil(n, GRADES.coil[seen]!.grade, 'before', random.pick(['ann', 'bob'])));
      if (random.chance(0.3)) events.push(reading(n, -deposit + 0.05 * random.normal()));
      if (seen < 2) continue;
      events.push(cleaned(n));
      deposit *= 0.05;
    }
    return [{ history: history(events, u % 3 !== 1), exposure: { placement, kitchenId: u < 3 ? 'north' : 'south' } }];
  });
}

const model = ({ lnRate, restore, unitSd, kitchenSd, diffusion, drift, levelling, accelerating, changePerYear, misread, eyes, grades, season, unknownRunDays, modelVersion }: Hyper) => ({ modelVersion, lnRate, unitSd, kitchenSd, diffusion, drift, restore, levelling, accelerating, changePerYear, misread, eyes, grades, season, unknownRunDays }); // prettier-ignore
const refused = (what: () => unknown): unknown => {
  try {
    return what();
  } catch (e) {
    return e;
  }
};

const FLEETS: Record<string, () => unknown> = {
  'seasonal, with an eye that slips': () => {
    const p = posterior(history(YEARS, false), OUTDOORS, SEASONAL);
    return { ...told(p), ahead: lookedAhead(p, SEASONAL) };
  },
  'news day by day, and the day taken otherwise': () => {
    const [h, exposure] = HISTORIES['a steady line']!;
    const p = updatePosterior(posterior(h, exposure, DEFAULT_HYPER), [coil(130, 'bare', 'after'), coil(200, 'filmed')], DEFAULT_HYPER);
    const last = p.asOf;
    return {
      updated: told(p),
      otherwise: told(asIfToday(p, [{ kind: 'coil', on: last, grade: 'packed', phase: 'before' }], DEFAULT_HYPER)),
      before: beforeKitchen(h, exposure, DEFAULT_HYPER).message,
      late: refused(() => updatePosterior(p, [coil(10, 'bare')], DEFAULT_HYPER)),
      other: refused(() => updatePosterior(p, [], SEASONAL)),
      old: refused(() => posterior({ ...h, startedOn: last }, exposure, DEFAULT_HYPER)),
      apart: refused(() => asIfToday(p, [coil(1, 'bare')], DEFAULT_HYPER)),
      early: refused(() => ahead(p, START)),
      since: [daysSinceClean(h, day(130)), daysSinceClean(h, day(131)), daysSinceClean({ ...h, startedClean: false }, day(10))],
    };
  },
  'kitchens that speak': () => fleetPosteriors(fleet(), DEFAULT_HYPER).map((p) => [p.rate.mean, p.rate.sd, p.lnK.mean, p.logEvidence, p.fromKitchen]), // prettier-ignore
  'a fleet learnt': () => model(fitHyper(fleet(), DEFAULT_HYPER, '2026-06-01')),
  'a fleet without evidence': () => model(fitHyper([{ history: history([]), exposure: OUTDOORS }], DEFAULT_HYPER, 'none')),
  'scales, eyes and seasons one by one': () => {
    const units = fleet();
    const far: Hyper = { ...DEFAULT_HYPER, diffusion: 0.18, drift: 0.9, misread: 0.2, changePerYear: 0.5, unknownRunDays: 300 };
    return [learnScales(units, far, DEFAULT_HYPER), learnEyes(units, DEFAULT_HYPER), learnSeasons(units, DEFAULT_HYPER)].map(model);
  },
};

const look = (n: number, grade: Inspection['grade'], aspect: Inspection['aspect'] = 'drain'): Inspection => ({ on: day(n), aspect, grade });
const DRAIN = { aspect: 'drain', kind: 'walk_in_freezer' } as const;
const HUMID = { share: 0.6, kappa: 4, peak: 200 };

function watched() {
  const random = new RandomStream(3, 'drains');
  return Array.from({ length: 8 }, () => ({
    group: DRAIN,
    startedOn: START,
    prior: defaultFailurePrior(DRAIN),
    looks: [60, 150, 240, 330, 420, 510, 600, 690, 780].map((n) =>
      look(n, random.chance([150, 510].includes(n) ? 0.7 : 0.05) ? 'blocked' : 'runs'),
    ),
  }));
}

const FAILURES: Record<string, () => unknown> = {
  'failures expected': () => UNIT_KINDS.map((kind) => (['drain', 'ice'] as const).map((aspect) => defaultFailurePrior({ aspect, kind }).days)), // prettier-ignore
  'failures found': () => {
    const looks = [
      look(60, 'runs'),
      look(150, 'blocked'),
      look(150, 'runs'),
      look(155, 'dry', 'ice'),
      look(300, 'slow'),
      look(900, 'blocked'),
    ];
    const p = failurePosterior(DRAIN, START, looks);
    const humid = failurePosterior(DRAIN, START, looks, { ...defaultFailurePrior(DRAIN), season: HUMID });
    const few = [p, failurePosterior(DRAIN, START, looks.slice(0, 2)), priorFailure(DRAIN, START)];
    return { p: { ...p, logLikelihood: p.logLikelihood.filter((_, i) => i % 16 === 0) }, humid: humid.rate, prior: fitFailurePrior(few, p.prior), late: refused(() => failurePosterior(DRAIN, day(100), looks)) }; // prettier-ignore
  },
  'damp months': () => [learnHumidity(watched()), learnHumidity(watched().slice(0, 2)), learnHumidity(watched().map((w) => ({ ...w, looks: w.looks.slice(0, 5) })))], // prettier-ignore
  'the year’s course': () =>
    [0, 1, 79.5, 200, 364.5, 365.25].flatMap((at) => [10, 90, 365].map((days) => seasonFactor(HUMID, at + 19_000, days))),
  'passages': () => [[0.3, 0.2, 0.01, 0.02], [0.3, 0.2, 0.01, 0], [0.3, 0.2, 0, 0.02], [0.3, 0.4, 0, 0], [0.3, 0.2, 0, 0], [0.3, 5, 0.01, 0.01], [0.3, -5, 0.01, 0.01], [0, 0, 1, 1]].map(([d, a, n, s]) => passage(d!, a!, n!, s!)), // prettier-ignore
  'special functions': () => [
    [-40, -9, -3, -0.5, 0, 0.7, 2, 7.5, 40].map((x) => [normalCdf(x), x < 0 ? logNormalCdf(x) : 0]),
    [0.1, 0.5, 1, 2.5, 11].map(lnGamma),
    [[0.3, 0.1], [2, 1], [2, 9], [15, 10], [1, 0], [0, 1]].map(([a, x]) => gammaQ(a!, x!)),
  ], // prettier-ignore
  'rates taken for granted': () => PLACEMENTS.map((p) => DEFAULT_HYPER.lnRate[p]),
};

describe('kept answers of fouling', () => {
  keptAnswers(import.meta.dirname, { ...COURSES, ...AHEAD, ...FLEETS, ...FAILURES });
});
