import { CHANNELS, type Seen, type Solution } from './solve';
import { UNKNOWNS, type Prior } from './state';
import { HANGS, MOVES, TAIL, TOGETHER, type Way } from './together';

/** One hypothesis about one reading: its prior and the sound machine's, what is wrong if something is, and whose spreads hold. */
export type Hypothesis = {
  prior: Prior;
  sound: Prior;
  way?: Way;
  capillary: boolean;
  learnt: boolean;
};

const K = TOGETHER.length;
const M = CHANNELS.length;
const EXPANSION = CHANNELS.indexOf('expansion');
const inTogether = Int8Array.from({ length: UNKNOWNS }, (_, i) => TOGETHER.indexOf(i));
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
export function evidenceOf({ slopes, x, shown, short }: Solution, seen: readonly Seen[], hypothesis: Hypothesis): number {
  const { prior, sound, way, capillary, learnt } = hypothesis;
  const kind = capillary ? 'capillary' : 'valve';
  const hangs = HANGS[kind][learnt ? 'learnt' : 'kind'];
  const moved = way && MOVES[way][kind];
  for (let k = 0; k < K; k++) {
    const i = TOGETHER[k]!;
    const [own, here] = [sound.sd[i]!, prior.sd[i]!];
    base[k] = Math.min(own, here);
    const severity = Math.max(0, here * here - own * own) * (moved?.severity ?? 1) ** 2;
    extra[k] = Math.sqrt(severity + (moved?.sd[k] ?? 0) ** 2);
  }
  const m = seen.length;
  for (let j = 0; j < m; j++) {
    const { channel, value, sd } = seen[j]!;
    const row = CHANNELS.indexOf(channel);
    let y = value - shown[row]! - (row === EXPANSION ? (moved?.superheatK ?? 0) : 0);
    for (let i = 0; i < UNKNOWNS; i++) {
      const slope = slopes[row * UNKNOWNS + i]!;
      y += slope * (x[i]! - prior.mean[i]!);
      const k = inTogether[i]!;
      if (k < 0) W[j * WIDTH + i] = slope * prior.sd[i]!;
      else {
        y -= slope * (moved?.mean[k] ?? 0);
        W[j * WIDTH + UNKNOWNS + k] = slope * extra[k]!;
      }
    }
    for (let l = 0; l < K; l++) {
      let sum = 0;
      for (let k = l; k < K; k++) sum += slopes[row * UNKNOWNS + TOGETHER[k]!]! * base[k]! * hangs.lower[k * K + l]!;
      W[j * WIDTH + TOGETHER[l]!] = sum;
    }
    const error = row === EXPANSION ? sd * hangs.expansion : sd;
    miss[j] = y;
    for (let k = 0; k <= j; k++) {
      let sum = k === j ? error * error : 0;
      for (let i = 0; i < WIDTH; i++) sum += W[j * WIDTH + i]! * W[k * WIDTH + i]!;
      S[j * M + k] = sum;
    }
  }
  return weighed(m, short);
}

/** Cholesky's factor of S in its place, and the evidence of `miss` under it. */
function weighed(m: number, short: number): number {
  let squares = 0;
  let lnDet = 0;
  for (let j = 0; j < m; j++) {
    for (let k = 0; k <= j; k++) {
      let sum = S[j * M + k]!;
      for (let l = 0; l < k; l++) sum -= S[j * M + l]! * S[k * M + l]!;
      S[j * M + k] = k === j ? Math.sqrt(sum) : sum / S[k * M + k]!;
    }
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
