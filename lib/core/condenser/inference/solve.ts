import { solved4 } from './forward';
import { lowerFactor } from './lower-factor';
import { newOutcome, run, type Machine, type Outcome } from './equations';
import { CHARGE, DRY, FLOODED, LN_EVAP, LN_K, LN_VALVE, STEP, TC, TE, UNKNOWNS, type Prior } from './state';

/** What an outcome is compared in: four imbalances that should be nought, then what instruments show. */
export const CHANNELS = ['condenser', 'evaporator', 'expansion', 'charge', 'headPa', 'suctionPa', 'bendK', 'liquidK', 'suctionK', 'dischargeK'] as const; // prettier-ignore
export type Channel = (typeof CHANNELS)[number];
export type Seen = { channel: Channel; value: number; sd: number };

export type Solution = {
  x: Float64Array;
  /** Of what the covariance is worked out where it is asked for: Cholesky factor of its inverse in unknowns scaled by these sds. */
  lower: Float64Array;
  scale: Float64Array;
  /** ln of the evidence, up to a constant that all hypotheses about one reading share and to what `lnJacobian` adds. */
  lnEvidence: number;
  /** Sum of squares over the channels, without the prior's share. */
  misfit: number;
  outcome: Outcome;
  /** What every channel shows there, and its derivatives by every unknown, row by row. */
  shown: Float64Array;
  slopes: Float64Array;
  /** ln of how much the balances move with the state there, |∂(balances)/∂(state)|. */
  lnJacobian: number;
  /** By how much less the sum of squares would be at the bottom of the last linear step: nothing where it settled. */
  short: number;
};

const N = UNKNOWNS;
const M = CHANNELS.length;
const MOST_STEPS = 9;

function channelValues(o: Outcome, into: Float64Array): void {
  into[0] = o.condenser;
  into[1] = o.evaporator;
  into[2] = o.expansion;
  into[3] = o.charge;
  into[4] = o.headPa;
  into[5] = o.suctionPa;
  into[6] = o.bendK;
  into[7] = o.liquidK;
  into[8] = o.suctionK;
  into[9] = o.dischargeK;
}

const outcome = newOutcome();
const values = new Float64Array(M);
const moved = new Float64Array(M);
const A = new Float64Array(N * N);
const L = new Float64Array(N * N);
const gradient = new Float64Array(N);
const step = new Float64Array(N);
const trial = new Float64Array(N);

/** Misfit per channel above which another start is tried: a corner of the equations may have caught the first. */
const CAUGHT = 2.5;

/** As `solve`, from the start and, where that fits badly, from a well-fed and from a starved evaporator too. */
export function solveWell(machine: Machine, prior: Prior, seen: readonly Seen[], start: Float64Array): Solution | null {
  let best = solve(machine, prior, seen, start);
  if (best && best.misfit < CAUGHT * seen.length) return best;
  for (const dry of [0.12, 0.6]) {
    const x = Float64Array.from(start);
    x[DRY] = dry;
    const other = solve(machine, prior, seen, x);
    if (other && (!best || other.lnEvidence > best.lnEvidence)) best = other;
  }
  return best;
}

/**
 * Most probable state under Gaussian priors and errors, by Gauss–Newton with Levenberg's damping in the unknowns scaled
 * by their prior sd; covariance and evidence by Laplace's approximation there. Null where nothing finite was found.
 */
export function solve(machine: Machine, prior: Prior, seen: readonly Seen[], start: Float64Array): Solution | null {
  const x = Float64Array.from(start);
  const slopes = new Float64Array(M * N);
  const index = seen.map((s) => CHANNELS.indexOf(s.channel));
  const cost = (at: Float64Array, into: Float64Array): number => {
    run(machine, at, outcome);
    channelValues(outcome, into);
    let sum = 0;
    for (let i = 0; i < N; i++) sum += ((at[i]! - prior.mean[i]!) / prior.sd[i]!) ** 2;
    for (let j = 0; j < seen.length; j++) sum += ((into[index[j]!]! - seen[j]!.value) / seen[j]!.sd) ** 2;
    return sum;
  };
  let now = cost(x, values);
  if (!Number.isFinite(now)) return null;
  fixedSlopes(machine, slopes);
  let damping = 1e-3;
  for (let round = 0; round < MOST_STEPS; round++) {
    differentiate(machine, x, slopes);
    normalEquations(x, prior, seen, index, slopes);
    let [gained, hoped] = [0, 0];
    for (let tries = 0; tries < 6; tries++) {
      if (!factor(damping)) return null;
      backSolve(L, gradient, step);
      for (let i = 0; i < N; i++) trial[i] = x[i]! + step[i]! * prior.sd[i]!;
      const there = cost(trial, moved);
      if (there < now || Math.abs(there - now) < 1e-9 * now) {
        gained = now - there;
        for (let i = 0; i < N; i++) hoped += gradient[i]! * step[i]!;
        x.set(trial);
        values.set(moved);
        now = there;
        damping = Math.max(1e-6, damping / 10);
        break;
      }
      damping *= 10;
    }
    // A step that gains little of what it hoped for has gone over a kink to its other side: shorter ones go on.
    if (gained < 0.05) {
      if (hoped < 0.5) break;
      damping *= 100;
    }
  }
  // The last step was small: the slopes before it serve the covariance.
  normalEquations(x, prior, seen, index, slopes);
  if (!factor(0)) return null;
  let lnDet = 0;
  for (let i = 0; i < N; i++) lnDet += 2 * Math.log(L[i * N + i]!);
  let lnErrors = 0;
  let misfit = 0;
  for (let j = 0; j < seen.length; j++) {
    lnErrors += Math.log(seen[j]!.sd);
    misfit += ((values[index[j]!]! - seen[j]!.value) / seen[j]!.sd) ** 2;
  }
  backSolve(L, gradient, step);
  let short = 0;
  for (let i = 0; i < N; i++) short += gradient[i]! * step[i]!;
  const shown = Float64Array.from(values);
  const lnJacobian = lnOfBalances(slopes);
  run(machine, x, outcome);
  return {
    x,
    lower: Float64Array.from(L),
    scale: prior.sd,
    lnEvidence: -0.5 * now - 0.5 * lnDet - lnErrors,
    lnJacobian,
    misfit,
    outcome: { ...outcome },
    shown,
    slopes,
    short,
  };
}

const STATE = [TC, TE, FLOODED, DRY] as const;
const block = new Float64Array(16);

/**
 * The balances hold but for the model's error, which is what has a density: turned into one of the state where the machine settles it
 * carries the determinant of their slopes. Without it a machine would seem the less likely the more firmly something (an accumulator that
 * catches liquid, a valve at work) holds it where it stands.
 */
function lnOfBalances(slopes: Float64Array): number {
  return (
    solved4(
      block.map((_, i) => slopes[(i >> 2) * N + STATE[i % 4]!]!),
      block,
    )?.lnDet ?? -20
  );
}

/** Unknowns that stand in one balance only, with slope −1: its channel; −1 for the others. A valve's capacity is no such one. */
const OWN_BALANCE = Int8Array.from({ length: N }, (_, i) =>
  i === LN_K ? 0 : i === LN_EVAP ? 1 : i === LN_VALVE ? 2 : i === CHARGE ? 3 : -1,
);

/** Slopes that are the same at every state. */
function fixedSlopes(machine: Machine, slopes: Float64Array): void {
  for (let i = 0; i < N; i++) {
    const only = ownBalance(machine, i);
    if (only >= 0) slopes[only * N + i] = -1;
  }
}

const ownBalance = (machine: Machine, i: number): number => (machine.capillary || i !== LN_VALVE ? OWN_BALANCE[i]! : -1);

/** `values` are those at x. The temperatures come last, as the properties hang on them. */
function differentiate(machine: Machine, x: Float64Array, slopes: Float64Array): void {
  for (let i = N - 1; i >= 0; i--) {
    if (ownBalance(machine, i) >= 0) continue;
    const kept = x[i]!;
    const h = STEP[i]!;
    x[i] = kept + h;
    run(machine, x, outcome);
    channelValues(outcome, moved);
    x[i] = kept;
    for (let j = 0; j < M; j++) slopes[j * N + i] = (moved[j]! - values[j]!) / h;
  }
}

/** A = 1 + Σ JᵀJ/σ² and the downhill gradient, in unknowns scaled by their prior sd. */
function normalEquations(x: Float64Array, prior: Prior, seen: readonly Seen[], index: readonly number[], slopes: Float64Array): void {
  A.fill(0);
  for (let i = 0; i < N; i++) {
    A[i * N + i] = 1;
    gradient[i] = -(x[i]! - prior.mean[i]!) / prior.sd[i]!;
  }
  for (let j = 0; j < seen.length; j++) {
    const row = index[j]! * N;
    const { value, sd } = seen[j]!;
    const miss = (value - values[index[j]!]!) / sd;
    for (let i = 0; i < N; i++) {
      const a = (slopes[row + i]! * prior.sd[i]!) / sd;
      if (a === 0) continue;
      gradient[i] = gradient[i]! + a * miss;
      for (let k = 0; k <= i; k++) A[i * N + k] = A[i * N + k]! + (a * slopes[row + k]! * prior.sd[k]!) / sd;
    }
  }
}

/** Cholesky factor of A with its diagonal raised by the damping. */
const factor = (damping: number): boolean => lowerFactor(A, L, N, N, damping);

/** `from`: entries of b before it are nought. */
function backSolve(lower: Float64Array, b: Float64Array, into: Float64Array, from = 0): void {
  for (let i = 0; i < from; i++) into[i] = 0;
  for (let i = from; i < N; i++) {
    let sum = b[i]!;
    for (let k = from; k < i; k++) sum -= lower[i * N + k]! * into[k]!;
    into[i] = sum / lower[i * N + i]!;
  }
  for (let i = N - 1; i >= 0; i--) {
    let sum = into[i]!;
    for (let k = i + 1; k < N; k++) sum -= lower[k * N + i]! * into[k]!;
    into[i] = sum / lower[i * N + i]!;
  }
}

const unit = new Float64Array(N);
const column = new Float64Array(N);

/** One column of the covariance, in units of the other unknowns' sd, into `column`. */
function columnOf({ lower }: Solution, i: number): void {
  unit.fill(0);
  unit[i] = 1;
  backSolve(lower, unit, column, i);
}

/** Variance of one unknown. */
export function varianceOf(solution: Solution, i: number): number {
  columnOf(solution, i);
  return column[i]! * solution.scale[i]! * solution.scale[i]!;
}

/** Covariance of the unknowns, row by row. */
export function covarianceOf(solution: Solution): Float64Array {
  const { scale } = solution;
  const cov = new Float64Array(N * N);
  for (let i = 0; i < N; i++) {
    columnOf(solution, i);
    for (let k = 0; k < N; k++) cov[k * N + i] = column[k]! * scale[k]! * scale[i]!;
  }
  return cov;
}
