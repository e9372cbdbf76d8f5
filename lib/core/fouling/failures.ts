import { toDay, type LocalDate } from '../calendar';
import type { UnitKind } from '../equipment/build';
import { ASPECT_INFO, isStopped, type FailureAspect } from '../findings/grades';
import { seasonFactor, type Season } from './season';
import { lnGamma } from './special';

/**
 * Drains, ice and the like: failures that come at a rate, stay hidden, and show only when somebody looks (Barlow & Proschan
 * 1965, "Mathematical Theory of Reliability", inspection models). Between two looks d days apart a sound part stays
 * sound with probability e^(−λd). λ of a unit is Gamma distributed over units alike.
 */
export type Inspection = { on: LocalDate; aspect: FailureAspect; grade: string };

/** What makes low-side units alike: the kind of box and the aspect. */
export type FailureGroup = { aspect: FailureAspect; kind: UnitKind };

/** Gamma prior of the failures per day over a year: shape and rate (days), mean shape/days; and their yearly course, where the evidence asked for one. */
export type FailurePrior = { shape: number; days: number; season?: Season };

const FAILURE_MODEL_VERSION = 'failures-2';

/** A drain that does not drain, ice that stops air. */
const isFailure = ({ aspect, grade }: Pick<Inspection, 'aspect' | 'grade'>): boolean => isStopped(aspect, grade);

// Judgement, to be replaced by the fleet's history: a walk-in freezer's drain or coil about once in a year and a half,
// others more rarely. Weight: two failures' worth of evidence.
export function defaultFailurePrior({ aspect, kind }: FailureGroup): FailurePrior {
  const days = { walk_in_freezer: 550, walk_in_cooler: 730, ice_machine: 730, prep_table: 800 }[kind as string] ?? 1100;
  return { shape: 2, days: 2 * days * ASPECT_INFO[aspect].fails.timesADrain };
}

export type FailurePosterior = {
  modelVersion: string;
  group: FailureGroup;
  /** Failures per day: mean, sd, 10 and 90 % points. */
  rate: { mean: number; sd: number; low: number; high: number };
  /** Mean days to a failure: 1/rate.mean. */
  meanDays: number;
  evidence: { inspections: number; failures: number };
  lastInspectedOn: LocalDate | null;
  /** ln likelihood on the rate grid, so that one more look costs one addition. */
  logLikelihood: number[];
  startedOn: LocalDate;
  /** Failures and looks already counted for the last day. */
  lastFailed: boolean;
  prior: FailurePrior;
};

/** Failures per day, from once in 500 years to once in four days. */
const GRID = Array.from({ length: 129 }, (_, i) => Math.exp(-Math.log(180_000) + (i * Math.log(180_000 / 4)) / 128));

const LN_GRID = GRID.map((x) => Math.log(x));

/** ln density of the rate over the grid. Over ln λ, so that an even grid in ln λ sums directly. */
function lnGammaDensities({ shape, days }: FailurePrior): number[] {
  const [scale, whole] = [shape * Math.log(days), lnGamma(shape)];
  return GRID.map((x, i) => scale + shape * (LN_GRID[i] as number) - days * x - whole);
}

/** What looks have said, before it is summed up. */
export type Looked = Omit<FailurePosterior, 'rate' | 'meanDays'>;

function summary(p: Looked): FailurePosterior {
  const logs = lnGammaDensities(p.prior).map((l, i) => l + (p.logLikelihood[i] as number));
  const top = Math.max(...logs);
  const weights = logs.map((l) => Math.exp(l - top));
  const sum = weights.reduce((a, b) => a + b, 0);
  const mean = GRID.reduce((a, x, i) => a + x * (weights[i] as number), 0) / sum;
  const square = GRID.reduce((a, x, i) => a + x * x * (weights[i] as number), 0) / sum;
  const point = (q: number) => {
    let acc = 0;
    for (let i = 0; i < GRID.length; i++) {
      const w = (weights[i] as number) / sum;
      if (acc + w >= q) {
        const lower = i === 0 ? (GRID[0] as number) : (GRID[i - 1] as number);
        return lower * ((GRID[i] as number) / lower) ** ((q - acc) / w);
      }
      acc += w;
    }
    return GRID[GRID.length - 1] as number;
  };
  return {
    ...p,
    rate: { mean, sd: Math.sqrt(Math.max(square - mean * mean, 0)), low: point(0.1), high: point(0.9) },
    meanDays: 1 / mean,
  };
}

/** Belief before any look. `startedOn` is the day from which the part is taken to have been sound. */
export function priorFailure(group: FailureGroup, startedOn: LocalDate, prior = defaultFailurePrior(group)): FailurePosterior {
  return summary(unlooked(group, startedOn, prior));
}

const unlooked = (group: FailureGroup, startedOn: LocalDate, prior: FailurePrior): Looked => ({
  modelVersion: FAILURE_MODEL_VERSION,
  group,
  evidence: { inspections: 0, failures: 0 },
  lastInspectedOn: null,
  logLikelihood: GRID.map(() => 0),
  startedOn,
  lastFailed: false,
  prior,
});

/**
 * After one or more looks on later days (or the same day, where the worst look counts). Every failure found is taken
 * to be mended on the spot. A look earlier than the last one throws RangeError: rebuild from the history.
 */
export function updateFailure(before: FailurePosterior, looks: readonly Inspection[]): FailurePosterior {
  const p = taken(before, looks);
  return p === before ? before : summary(p);
}

/** The same where only the evidence is asked for: the sums would be most of the work. */
export const afterLooks = (group: FailureGroup, startedOn: LocalDate, looks: readonly Inspection[], prior: FailurePrior): Looked =>
  taken(unlooked(group, startedOn, prior), looks);

function taken(before: Looked, looks: readonly Inspection[]): Looked {
  const byDay = new Map<LocalDate, boolean>();
  for (const look of looks) {
    if (look.aspect !== before.group.aspect) continue;
    byDay.set(look.on, (byDay.get(look.on) ?? false) || isFailure(look));
  }
  let p = before;
  for (const [on, failed] of [...byDay].sort(([a], [b]) => (a < b ? -1 : 1))) p = oneDay(p, on, failed);
  return p;
}

function oneDay(p: Looked, on: LocalDate, failed: boolean): Looked {
  const from = p.lastInspectedOn ?? p.startedOn;
  const days = toDay(on) - toDay(from);
  if (days < 0) throw new RangeError(`A look of ${on} arrived after one of ${from}: rebuild from the whole history.`);
  if (days === 0) return p;
  // In humid months a day counts for more.
  const exposed = days * seasonFactor(p.prior.season, toDay(from), days);
  const logLikelihood = p.logLikelihood.map((l, i) => {
    const hazard = (GRID[i] as number) * exposed;
    return l + (failed ? Math.log(-Math.expm1(-hazard)) : -hazard);
  });
  return {
    ...p,
    logLikelihood,
    lastInspectedOn: on,
    lastFailed: failed,
    evidence: { inspections: p.evidence.inspections + 1, failures: p.evidence.failures + (failed ? 1 : 0) },
  };
}

/** Posterior of one unit's failure rate from all its inspections, in any order. */
export function failurePosterior(
  group: FailureGroup,
  startedOn: LocalDate,
  looks: readonly Inspection[],
  prior = defaultFailurePrior(group),
): FailurePosterior {
  return updateFailure(priorFailure(group, startedOn, prior), looks);
}

/**
 * Gamma prior of a group from its units' own evidence (empirical Bayes: largest marginal likelihood over a grid of
 * means and shapes, with `base` counting as much as a handful of units). All posteriors must be of one group.
 */
export function fitFailurePrior(units: readonly FailurePosterior[], base: FailurePrior): FailurePrior {
  const baseMean = base.shape / base.days;
  let best = base;
  let bestScore = -Infinity;
  for (let a = -8; a <= 8; a++)
    for (const shape of [0.7, 1, 1.5, 2, 3, 5]) {
      const candidate = { ...base, shape, days: shape / (baseMean * Math.exp(a * 0.2)) };
      const logs = lnGammaDensities(candidate);
      let score = -0.5 * ((a * 0.2) / 0.7) ** 2 - 0.5 * (Math.log(shape / base.shape) / 0.6) ** 2;
      for (const u of units) {
        let top = -Infinity;
        for (let i = 0; i < GRID.length; i++) top = Math.max(top, (logs[i] as number) + (u.logLikelihood[i] as number));
        let sum = 0;
        for (let i = 0; i < GRID.length; i++) sum += Math.exp((logs[i] as number) + (u.logLikelihood[i] as number) - top);
        score += top + Math.log(sum);
      }
      if (score > bestScore) [bestScore, best] = [score, candidate];
    }
  return best;
}

/** ln probability of some units' looks, each unit's rate drawn from its prior. */
export const failureEvidence = (units: readonly Pick<Looked, 'logLikelihood' | 'prior'>[]): number =>
  units.reduce((sum, { logLikelihood, prior }) => {
    const logs = lnGammaDensities(prior).map((l, i) => l + (logLikelihood[i] as number));
    const top = Math.max(...logs);
    return sum + top + Math.log(logs.reduce((a, l) => a + Math.exp(l - top), 0));
  }, 0);
