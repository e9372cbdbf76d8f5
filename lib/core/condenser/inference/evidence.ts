import { lowerFactor } from './lower-factor';
import { CHANNELS, type Seen, type Solution } from './solve';
import { UNKNOWNS, type Prior } from './state';
import { HANGS, MOVES, TAIL, TOGETHER, UNMOVED, type Moved, type Way } from './together';

/** One hypothesis about one reading: its prior and the sound machine's, what is wrong if something is, and whose spreads hold. */
export type Hypothesis = {
  prior: Prior;
  sound: Prior;
  way?: Way;
  capillary: boolean;
  learnt: boolean;
};

const K = TOGETHER.length;
/** Head may be read twice. */
const M = CHANNELS.length + 1;
const EXPANSION = CHANNELS.indexOf('expansion');
const miss = new Float64Array(M);
const base = new Float64Array(K);
const extra = new Float64Array(K);
const S = new Float64Array(M * M);
const WIDTH = UNKNOWNS + K;
const W = new Float64Array(M * WIDTH);

/**
 * ln of the evidence of one hypothesis, up to the constant that all of one reading share, as `Solution` has it but with what independent
 * normal spreads leave out: how a machine's own ways hang together and how much of each is left against a baseline of its own (`HANGS`),
 * what a cause moves besides in this model (`MOVES`), and that a model errs further than a normal allows (`TAIL`).
 *
 * By linear theory about the solution found with plain spreads: nothing is solved again, and figures and bands stay those of that solution.
 * y = what was seen less what the prior's mean would show, J the slopes, S = J·P·Jᵀ + R; far out yᵀS⁻¹y counts as of a Student t.
 */
export function evidenceOf(solution: Solution, seen: readonly Seen[], hypothesis: Hypothesis): number {
  const kind = hypothesis.capillary ? 'capillary' : 'valve';
  const hangs = HANGS[kind][hypothesis.learnt ? 'learnt' : 'kind'];
  const moved = hypothesis.way ? MOVES[hypothesis.way][kind] : UNMOVED;
  spreads(hypothesis, moved);
  const m = seen.length;
  for (let j = 0; j < m; j++) {
    const { channel, value, sd } = seen[j]!;
    const row = CHANNELS.indexOf(channel);
    miss[j] = value - shownAt(solution, row, hypothesis.prior, moved) - (row === EXPANSION ? moved.superheatK : 0);
    weigh(solution.slopes, row, j, hypothesis.prior, hangs);
    for (let k = 0; k <= j; k++) {
      let sum = k === j ? sd * sd : 0;
      for (let i = 0; i < WIDTH; i++) sum += W[j * WIDTH + i]! * W[k * WIDTH + i]!;
      S[j * M + k] = sum;
    }
  }
  return weighed(m, solution.short) + solution.lnJacobian;
}

/** Of each own way: what hangs together of its spread, and what the cause adds, which stands alone. */
function spreads({ prior, sound }: Hypothesis, moved: Moved): void {
  for (let k = 0; k < K; k++) {
    const i = TOGETHER[k]!;
    const [own, here] = [sound.sd[i]!, prior.sd[i]!];
    base[k] = Math.min(own, here);
    const severity = Math.max(0, here * here - own * own) * moved.severity ** 2;
    extra[k] = Math.sqrt(severity + moved.sd[k]! ** 2);
  }
}

/** What a channel would show at the mean of the hypothesis. */
function shownAt({ slopes, x, shown }: Solution, row: number, { mean }: Prior, moved: Moved): number {
  let would = shown[row]!;
  for (let i = 0; i < UNKNOWNS; i++) would -= slopes[row * UNKNOWNS + i]! * (x[i]! - mean[i]!);
  for (let k = 0; k < K; k++) would += slopes[row * UNKNOWNS + TOGETHER[k]!]! * moved.mean[k]!;
  return would;
}

/** A row of J·P^½: unknowns alone, own ways through the lower factor of what hangs together, and what the cause adds. */
function weigh(slopes: Float64Array, row: number, j: number, { sd }: Prior, lower: Float64Array): void {
  const at = j * WIDTH;
  for (let i = 0; i < UNKNOWNS; i++) W[at + i] = slopes[row * UNKNOWNS + i]! * sd[i]!;
  for (let l = 0; l < K; l++) {
    let sum = 0;
    for (let k = l; k < K; k++) sum += slopes[row * UNKNOWNS + TOGETHER[k]!]! * base[k]! * lower[k * K + l]!;
    W[at + TOGETHER[l]!] = sum;
    W[at + UNKNOWNS + l] = slopes[row * UNKNOWNS + TOGETHER[l]!]! * extra[l]!;
  }
}

/** Cholesky's factor of S in its place, and the evidence of `miss` under it. */
function weighed(m: number, short: number): number {
  lowerFactor(S, S, m, M);
  let squares = 0;
  let lnDet = 0;
  for (let j = 0; j < m; j++) {
    let y = miss[j]!;
    for (let l = 0; l < j; l++) y -= S[j * M + l]! * miss[l]!;
    miss[j] = y / S[j * M + j]!;
    squares += miss[j]! ** 2;
    lnDet += Math.log(S[j * M + j]!);
  }
  return -0.5 * tailed(squares, m) - lnDet - 0.5 * short;
}

function tailed(squares: number, m: number): number {
  const from = TAIL.from * m;
  return squares <= from ? squares : from + (TAIL.free + from) * Math.log((TAIL.free + squares) / (TAIL.free + from));
}
