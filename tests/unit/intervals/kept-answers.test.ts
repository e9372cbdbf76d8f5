import { describe } from 'vitest';
import { addDays, localDate, weeksRule } from '@/lib/core/calendar';
import { PLACEMENTS } from '@/lib/core/equipment/build';
import { afterCleaning, DEFAULT_HYPER, failurePosterior, posterior, type Inspection, type UnitEvent } from '@/lib/core/fouling';
import {
  ageReplacement,
  asymptoticPenalty,
  costCurve,
  DEFAULT_POLICY,
  hiddenFailure,
  initialCoilWeeks,
  linearPenalty,
  minimalRepair,
  readPolicy,
  reviseCoilRule,
  reviseInspectionRule,
  settle,
  targets,
  whatIf,
  type CoilRevision,
  type InspectionRevisionInput,
} from '@/lib/core/intervals';
import { changeSigns, foundChange, type DayOfLooks } from '@/lib/core/intervals/change-question';
import { sharedTrip } from '@/lib/core/intervals/shared-trip';
import { chance, fromTo, where } from '@/lib/core/intervals/words';
import { keptAnswers } from '../../support/kept-answers';
import { historyOf, revised, START, visit, type Visit } from './support';

// A regression, nothing more: see tests/support/kept-answers.ts. Anew by `node scripts/keep-answers.mjs intervals`.

type More = Parameters<typeof revised>[2];
const clean = (n: number, gap: number) => Array.from({ length: n }, () => visit(gap, 'bare', { lnK: -0.03, after: 'bare' }));

/** What moves and what is said of it; the belief behind it is the fouling room's. */
const told = ({ evidence, ...r }: CoilRevision) => ({ ...r, evidence: { ...evidence, rate: evidence.rate.mean, lnK: undefined } });
const of =
  (visits: readonly Visit[], weeks: number, more: More = {}) =>
  () =>
    told(revised(visits, weeks, more));

const last = (visits: readonly Visit[]) => historyOf(visits).last;
/** As `revised`, with events of that history beside the visits. */
function withEvents(visits: readonly Visit[], weeks: number, extra: (on: string) => UnitEvent[], more: More = {}) {
  return () => {
    const { last: on, ...history } = historyOf(visits);
    const whole = { ...history, events: [...history.events, ...extra(on)] };
    const { placement = 'fryer', ...rest } = more;
    return told(
      reviseCoilRule({
        currency: 'USD',
        history: whole,
        posterior: posterior(whole, { placement, kitchenId: 'k' }, DEFAULT_HYPER),
        hyper: DEFAULT_HYPER,
        settings: DEFAULT_POLICY,
        currentRule: weeksRule(weeks),
        anchor: 'last_completed',
        lastDoneOn: on,
        ...rest,
      }),
    );
  };
}

const PACKED = [visit(84, 'packed')];
const MATTED = [visit(60, 'furred'), visit(60, 'matted', { lnK: -0.35 })];
const CHEAP = { ...DEFAULT_POLICY, risk: 1, packedRisk: 1 };
const OWN = (deposit: number) => 0.4 * deposit + 1.1 * deposit * deposit;

const COIL: Record<string, () => unknown> = {
  'packed beside a fryer': of(PACKED, 12),
  'packed at the shortest there is': of([visit(9, 'packed')], 1),
  'packed at what the shop goes no shorter than': of([visit(40, 'packed'), visit(42, 'packed')], 6, { settings: { ...DEFAULT_POLICY, minWeeks: 6 } }), // prettier-ignore
  'matted, what the interval reckons with': of(MATTED, 8),
  'matted, within the dead band': of([visit(120, 'matted')], 12, { settings: { ...DEFAULT_POLICY, deadBand: 0.6 } }),
  'matted, longer only after clean finds': of([visit(200, 'matted')], 6, { placement: 'bar' }),
  tripped: of([visit(70, 'furred', { trip: true })], 12),
  'tripped, start unknown': withEvents([visit(70, null)], 12, (on) => [{ kind: 'trip', on: addDays(localDate(on), 1) }]),
  'tripped by its fan': withEvents([visit(70, 'furred')], 12, (on) => [{ kind: 'trip', on: localDate(on), cause: 'fan' }]),
  'tripped with a coil seen open': of([visit(70, 'filmed', { trip: true })], 12),
  'clean once': of(clean(1, 80), 12, { placement: 'bar' }),
  'clean three times running': of(clean(3, 80), 12, { placement: 'line', settings: { ...DEFAULT_POLICY, cleanFindings: 3 } }),
  'clean, a quarter longer at most': of(clean(3, 21), 3, { placement: 'outdoors', settings: { ...DEFAULT_POLICY, loosenFactor: 1.25 } }),
  'clean, less than a week longer': of(clean(1, 14), 2, { placement: 'outdoors', settings: { ...DEFAULT_POLICY, loosenFactor: 1.1 } }),
  'clean, looked at too soon to prove it': of([visit(80, 'bare'), visit(10, 'bare')], 12, { placement: 'bar' }),
  'clean, at the longest': of(clean(4, 180), 26, { placement: 'bar', settings: { ...DEFAULT_POLICY, maxWeeks: { ...DEFAULT_POLICY.maxWeeks, coil_cleaning: 26 } } }), // prettier-ignore
  'a contract asks for no longer': of(clean(2, 60), 20, { placement: 'bar', bounds: { maxWeeks: 13, maxReason: 'contract' } }),
  'a warranty asks for no longer, clean': of(clean(2, 60), 6, { placement: 'bar', bounds: { maxWeeks: 8, maxReason: 'warranty', minWeeks: 4 } }), // prettier-ignore
  locked: of(PACKED, 12, { locked: true }),
  'by the calendar, too slack': of(PACKED, 12, { anchor: 'calendar', anchorDate: START }),
  'by the calendar, longer would do': of(clean(3, 50), 7, { anchor: 'calendar', anchorDate: START, placement: 'bar' }),
  'a rule that ends': of(PACKED, 12, { currentRule: `${weeksRule(12)};UNTIL=20250601` }),
  'a rule that ends before': of(clean(2, 80), 12, { currentRule: `${weeksRule(12)};UNTIL=20250801`, placement: 'bar' }),
  'on a weekday, in days': of(PACKED, 12, { currentRule: 'FREQ=DAILY;INTERVAL=80', preferredWeekday: 2 }),
  'no news since': of(MATTED, 12, { lastRevisedOn: last(MATTED) }),
  'news since': of(MATTED, 12, { lastRevisedOn: addDays(last(MATTED), -1) }),
  'by readings alone': of([visit(60, null, { lnK: -0.3 }), visit(60, null, { lnK: -0.34 })], 16),
  'cheapest rides along with another visit': withEvents([visit(60, 'furred'), visit(60, 'furred')], 20, () => [], { alsoDue: [30, 49, 52, 70].map((n) => addDays(last([visit(60, null), visit(60, null)]), n)), settings: { ...CHEAP, tripCost: 55 } }), // prettier-ignore
  'limits of its own': of(MATTED, 14, { limits: [{ name: 'Cooling lost', lnK: -0.3, sd: 0.05 }, { name: 'Head pressure', lnK: -0.5 }], failureLimit: { name: 'Head pressure', lnK: -0.5, sd: 0.07 }, settings: { ...DEFAULT_POLICY, energyCostPerDayPerLnK: OWN } }), // prettier-ignore
  'a limit that is not reached': of(clean(2, 80), 10, { placement: 'bar', limits: [{ name: 'Cooling lost', lnK: -4 }], settings: { ...DEFAULT_POLICY, packedRisk: 1, energyCostPerDayPerLnK: 0 } }), // prettier-ignore
  'keeping to the risk costs more': of([visit(60, 'matted'), visit(60, 'matted')], 14, { settings: { ...DEFAULT_POLICY, risk: 0.02, packedRisk: 0.005, cleaningCost: 200 } }), // prettier-ignore
  'residue that cleaning leaves': of(
    Array.from({ length: 7 }, () => visit(70, 'matted', { lnK: -0.6, after: 'furred' })),
    10,
  ),
  'residue that is worth washing out': of(Array.from({ length: 5 }, () => visit(60, 'matted', { lnK: -0.4, after: 'filmed' })), 9, { settings: { ...DEFAULT_POLICY, deepCleanShare: 0.9, deepCleaningCost: 70 } }), // prettier-ignore
  'breathes more from a day on': withEvents([visit(80, 'furred')], 12, (on) => [{ kind: 'change', on: localDate(on), said: 'more' }]),
  'two findings of a day': withEvents([visit(60, 'filmed', { after: 'matted' })], 10, (on) => [{ kind: 'coil', on: localDate(on), grade: 'matted', phase: 'before' }]), // prettier-ignore
};

const LOOKED: Inspection[] = [[30, 'runs'], [30, 'slow'], [120, 'runs'], [200, 'blocked'], [290, 'runs']].map(([n, grade]) => ({ on: addDays(START, Number(n)), aspect: 'drain' as const, grade: String(grade) })); // prettier-ignore

function inspected(count: number, more: Partial<InspectionRevisionInput> = {}, season = false) {
  return () => {
    const looks = LOOKED.slice(0, count);
    const group = { aspect: 'drain' as const, kind: 'walk_in_freezer' as const };
    const prior = { shape: 2, days: 900, ...(season ? { season: { share: 0.7, kappa: 6, peak: 200 } } : {}) };
    return reviseInspectionRule({
      task: 'drain_inspection',
      looks: [...looks, { on: addDays(START, 29), aspect: 'ice', grade: 'dry' }],
      posterior: failurePosterior(group, START, looks, prior),
      settings: DEFAULT_POLICY,
      currentRule: weeksRule(13),
      anchor: 'last_completed',
      lastDoneOn: looks.at(-1)?.on ?? START,
      ...more,
    });
  };
}

const INSPECTION: Record<string, () => unknown> = {
  'a drain that runs, and is slow the same day': inspected(2),
  'a drain clean since': inspected(3, { currentRule: weeksRule(4) }),
  'a drain blocked': inspected(4),
  'a drain clean after a block': inspected(5, { currentRule: weeksRule(26), lastRevisedOn: addDays(START, 250) }),
  'never looked at': inspected(0),
  'nothing looked at since': inspected(3, { lastRevisedOn: addDays(START, 120) }),
  'in damp months': inspected(3, {}, true),
  'in dry months': inspected(5, {}, true),
  'a fan broken since': inspected(3, { currentRule: weeksRule(4), broken: [{ on: addDays(START, 130), what: 'Fan' }, { on: addDays(START, 10), what: 'Door' }] }), // prettier-ignore
  'a warranty on looking': inspected(3, { currentRule: weeksRule(30), bounds: { maxWeeks: 12, maxReason: 'warranty' } }),
  'looking that costs nothing unseen': inspected(3, { settings: { ...DEFAULT_POLICY, hiddenFailureCostPerDay: 0 } }),
};

const belief = (visits: readonly Visit[], placement: (typeof PLACEMENTS)[number] = 'fryer') => {
  const { startedOn, startedClean, events } = historyOf(visits);
  return posterior({ startedOn, startedClean, events }, { placement, kitchenId: 'k' }, DEFAULT_HYPER);
};
const some = <T>(list: readonly T[]) => list.filter((_, i) => i % 9 === 0);

const CHOICE: Record<string, () => unknown> = {
  'first weeks by what it breathes': () => Object.fromEntries(PLACEMENTS.map((p) => [p, initialCoilWeeks(belief([], p), DEFAULT_POLICY)])),
  'first weeks under other limits': () => [
    initialCoilWeeks(belief([]), DEFAULT_POLICY, [{ name: 'Cooling lost', lnK: -0.2 }], { name: 'Head pressure', lnK: -0.3 }),
    initialCoilWeeks(belief([], 'bar'), { ...DEFAULT_POLICY, minWeeksUnlessSevere: 60, maxWeeks: { ...DEFAULT_POLICY.maxWeeks, coil_cleaning: 40 } }), // prettier-ignore
  ],
  targets: () => {
    const t = targets(afterCleaning(belief(MATTED)), DEFAULT_POLICY, DEFAULT_POLICY.limits, DEFAULT_POLICY.failureLimit);
    return { ...t, curve: some(t.curve) };
  },
  'targets that never bind': () => {
    const t = targets(afterCleaning(belief([], 'bar')), { ...CHEAP, cleaningCost: 5000, failureChancePerDay: 0 }, [{ name: 'x', lnK: -9 }], { name: 'y', lnK: -9 }); // prettier-ignore
    return { ...t, curve: some(t.curve) };
  },
  'cost by a machine of its own': () => some(costCurve(afterCleaning(belief(PACKED)), { ...DEFAULT_POLICY, energyCostPerDayPerLnK: OWN }, { name: 'own', lnK: -0.4, sd: 0.2 })), // prettier-ignore
  'a fleet under two policies': () => {
    const fleet = [
      { kitchenId: 'a', posterior: belief(MATTED) },
      { kitchenId: 'a', posterior: belief(PACKED), bounds: { maxWeeks: 9 } },
      { kitchenId: 'b', posterior: belief([], 'bar'), heldWeeks: 13 },
      { kitchenId: 'b', posterior: belief(clean(2, 90), 'line'), limits: [{ name: 'Cooling lost', lnK: -0.3 }], failureLimit: { name: 'Head pressure', lnK: -0.45 } }, // prettier-ignore
    ];
    return {
      ...whatIf(fleet, DEFAULT_POLICY, { ...DEFAULT_POLICY, risk: 0.05, minWeeksUnlessSevere: 5 }),
      none: settle([], DEFAULT_POLICY),
    };
  },
  'closed forms': () => ({
    linear: [linearPenalty(60, 0.02), linearPenalty(60, 0)],
    asymptotic: [asymptoticPenalty(60, 2, 90), asymptoticPenalty(200, 2, 90)],
    age: [ageReplacement(2.2, 300, 60, 500), ageReplacement(1, 300, 60, 500), ageReplacement(2, 300, 60, 60)],
    repair: [minimalRepair(2.5, 300, 200, 90), minimalRepair(1, 300, 200, 90)],
    hidden: [hiddenFailure(1 / 500, 25, 15), hiddenFailure(0, 25, 15), hiddenFailure(0.01, 25, 0)],
  }),
  'what a shared trip spares': () => {
    const at = [0, 3, 6, 9, 30];
    const cost = sharedTrip(DEFAULT_POLICY, [21, 45, 66]);
    return [at.map((k) => cost?.(k)), sharedTrip(DEFAULT_POLICY, []), sharedTrip({ ...DEFAULT_POLICY, tripCost: 0 }, [20]), sharedTrip({ ...DEFAULT_POLICY, tripCost: 90 }, [3])?.(0)]; // prettier-ignore
  },
  'a policy on file': () => {
    const { maxWeeks, limits } = DEFAULT_POLICY;
    const stored = { risk: 0.3, packedRisk: 'high', limits: [], cleaningCost: NaN, maxWeeks: { coil_cleaning: 30 }, ownLimits: { coolingLost: 0.2 }, failureLimit: { name: 'own', lnK: -1 }, cleanGrade: 'bare' }; // prettier-ignore
    const read = readPolicy(stored);
    return { read, none: readPolicy(null).risk, kept: readPolicy({ limits: [{ name: 'a', lnK: -0.1 }] }).limits, same: [read.limits === limits, Object.keys(maxWeeks)] }; // prettier-ignore
  },
  'a kitchen’s looks against what was expected': () => {
    const day = (n: number, worse: number, variance = 1): DayOfLooks => ({ on: addDays(START, n), looks: 3, worse, variance });
    const dirtier = [day(0, -2), day(10, 0.4), day(20, 2.5), day(30, 9, 0), day(40, 2.6)];
    const found = [foundChange(dirtier), foundChange(dirtier.map((d) => ({ ...d, worse: -d.worse * 2 }))), foundChange([day(0, 4.5)]), foundChange([day(0, 4.4)]), foundChange([day(0, 9), day(10, -9)])]; // prettier-ignore
    return { found, signs: found.map((f) => f && changeSigns(f)) };
  },
  'words': () => [PLACEMENTS.map(where), [0.5, 1 / 3, 0.25, 0.2, 0.1, 0.05, 0.15, 0.34, 1 / 30].map(chance), fromTo(1, 2), fromTo(4.35, 1), fromTo(12, 4.35)], // prettier-ignore
};

describe('kept answers of intervals', () => {
  keptAnswers(import.meta.dirname, { ...COIL, ...INSPECTION, ...CHOICE });
});
