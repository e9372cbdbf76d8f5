import { AT, STRIDE, type Bank } from './filter';
import { PIECE_SD, RATE_CENTRES, RATE_COUNT, shapePrior, SHAPES, type Hyper, type PriorTable } from './hyper';
import { SAID_CHANGE, type SaidChange } from './said-change';

const COUNT = SHAPES * RATE_COUNT;

/** The state's means and covariances in the order of the bank, and where the rate's own stand among them. */
const FIRST = AT.F;
const MEANS = 4;
const PAIRS = [
  [0, 0], [0, 1], [0, 2], [0, 3], [1, 1], [1, 2], [1, 3], [2, 2], [2, 3], [3, 3],
] as const; // prettier-ignore
const SIZE = MEANS + PAIRS.length;
const X = AT.RATE - FIRST;

/** Mean rate of each piece that is drawn anew. */
const REDRAWN = RATE_CENTRES.map((c) => Math.exp(c + PIECE_SD ** 2 / 2));

/** Adds `w` times the raw moments of the piece at `o` to `into`. */
function addRaw(into: Float64Array, bank: Bank, o: number, w: number): void {
  for (let i = 0; i < MEANS; i++) into[i]! += w * (bank[o + FIRST + i] as number);
  for (let k = 0; k < PAIRS.length; k++) {
    const [i, j] = PAIRS[k] as readonly [number, number];
    const product = (bank[o + FIRST + i] as number) * (bank[o + FIRST + j] as number);
    into[MEANS + k]! += w * ((bank[o + FIRST + MEANS + k] as number) + product);
  }
}

/** The same moments with the rate drawn anew as piece `id` has it, independent of everything else. */
function withRate(raw: Float64Array, id: number, into: Float64Array, w: number): void {
  const rate = REDRAWN[id % RATE_COUNT] as number;
  const square = (PIECE_SD * rate) ** 2 + rate * rate;
  for (let i = 0; i < MEANS; i++) into[i]! += w * (i === X ? rate : (raw[i] as number));
  PAIRS.forEach(([i, j], k) => {
    const other = i === X ? j : i;
    const value = i === X && j === X ? square : i === X || j === X ? rate * (raw[other] as number) : (raw[MEANS + k] as number);
    into[MEANS + k]! += w * value;
  });
}

/** Writes moments back as means and covariances. */
function write(bank: Bank, o: number, raw: Float64Array): void {
  for (let i = 0; i < MEANS; i++) bank[o + FIRST + i] = raw[i] as number;
  PAIRS.forEach(([i, j], k) => (bank[o + FIRST + MEANS + k] = (raw[MEANS + k] as number) - (raw[i] as number) * (raw[j] as number)));
}

/** Where each piece stands in a bank that may have lost some, and the best likelihood in it. */
function laidOut(bank: Bank): { at: Int32Array; best: number } {
  const at = new Int32Array(COUNT).fill(-1);
  let best = -Infinity;
  for (let o = 0; o < bank.length; o += STRIDE) {
    at[bank[o] as number] = o;
    best = Math.max(best, bank[o + AT.LL] as number);
  }
  return { at, best };
}

/** Share of the belief that each piece's evidence and its prior give it, against the best. */
const shareOf = (bank: Bank, o: number, best: number, prior: PriorTable, shapes: readonly number[]): number => {
  const id = bank[o] as number;
  return (
    Math.exp((bank[o + AT.LL] as number) - best) *
    (prior.marginal[id % RATE_COUNT] as number) *
    (shapes[Math.floor(id / RATE_COUNT)] as number)
  );
};

const own14 = new Float64Array(SIZE);
const all14 = new Float64Array(SIZE);

/** Means and covariances of the piece at `o` into `own14`. */
function lift(bank: Bank, o: number): void {
  for (let i = 0; i < SIZE; i++) own14[i] = bank[o + FIRST + i] as number;
}

/** Puts in place of what `own14` holds its mixture, `a` to `b`, with everybody's state and a rate of its own. */
function mixIn(a: number, b: number, rate: number): void {
  for (let k = 0; k < PAIRS.length; k++) {
    const [i, j] = PAIRS[k] as readonly [number, number];
    const d = (own14[i] as number) - (i === X ? rate : (all14[i] as number));
    const e = (own14[j] as number) - (j === X ? rate : (all14[j] as number));
    const theirs = i === X && j === X ? (PIECE_SD * rate) ** 2 : i === X || j === X ? 0 : (all14[MEANS + k] as number);
    own14[MEANS + k] = a * (own14[MEANS + k] as number) + b * theirs + a * b * d * e;
  }
  for (let i = 0; i < MEANS; i++) own14[i] = a * (own14[i] as number) + b * (i === X ? rate : (all14[i] as number));
}

/**
 * At a cleaning: with probability `chance` the kitchen is not what it was, and the rate is drawn anew from what its
 * placement makes likely. Each piece's likelihood becomes (1 − chance)·L + chance·Z with Z the evidence so far (the
 * fixed-share update of Herbster & Warmuth 1998), and its state the mixture of its own and everybody's, matched in two
 * moments. Returns a full bank; pieces given up earlier come back.
 */
export function allowChange(bank: Bank, hyper: Hyper, prior: PriorTable, chance: number): Bank {
  const shapes = shapePrior(hyper);
  const { at, best } = laidOut(bank);
  all14.fill(0);
  let z = 0;
  for (let o = 0; o < bank.length; o += STRIDE) {
    const w = shareOf(bank, o, best, prior, shapes);
    z += w;
    addRaw(all14, bank, o, w);
  }
  for (let k = 0; k < SIZE; k++) all14[k]! /= z;
  for (let k = 0; k < PAIRS.length; k++) {
    const [i, j] = PAIRS[k] as readonly [number, number];
    all14[MEANS + k]! -= (all14[i] as number) * (all14[j] as number);
  }
  const next = new Float64Array(COUNT * STRIDE);
  const anew = chance * z;
  for (let id = 0; id < COUNT; id++) {
    const from = at[id] as number;
    const own = from < 0 ? 0 : (1 - chance) * Math.exp((bank[from + AT.LL] as number) - best);
    if (from >= 0) lift(bank, from);
    else own14.fill(0);
    mixIn(own / (own + anew), anew / (own + anew), REDRAWN[id % RATE_COUNT] as number);
    const o = id * STRIDE;
    next[o + AT.ID] = id;
    next[o + AT.LL] = best + Math.log(own + anew);
    next.set(own14, o + FIRST);
  }
  return next;
}

/**
 * On the day from which a kitchen is known to have changed: every rate moves by a normal step of its logarithm, the
 * deposit that is there stays. Weights are those of the belief as it stands, so that what was learned is moved, not lost.
 */
export function takeChange(bank: Bank, hyper: Hyper, prior: PriorTable, said: SaidChange): Bank {
  const { by, sd } = SAID_CHANGE[said];
  const shapes = shapePrior(hyper);
  const { best } = laidOut(bank);
  const sums = Array.from({ length: COUNT }, () => new Float64Array(SIZE));
  const total = new Float64Array(COUNT);
  const raw = new Float64Array(SIZE);
  for (let o = 0; o < bank.length; o += STRIDE) {
    const id = bank[o] as number;
    const w = shareOf(bank, o, best, prior, shapes);
    const shape = Math.floor(id / RATE_COUNT);
    const step = RATE_CENTRES.map((c) => Math.exp(-0.5 * ((c - (RATE_CENTRES[id % RATE_COUNT] as number) - by) / sd) ** 2));
    const sum = step.reduce((a, b) => a + b, 0);
    raw.fill(0);
    addRaw(raw, bank, o, 1);
    step.forEach((p, j) => {
      const to = shape * RATE_COUNT + j;
      const share = (w * p) / sum;
      total[to]! += share;
      withRate(raw, to, sums[to] as Float64Array, share);
    });
  }
  const next = new Float64Array(COUNT * STRIDE);
  for (let id = 0; id < COUNT; id++) {
    const o = id * STRIDE;
    const t = total[id] as number;
    const own = (prior.marginal[id % RATE_COUNT] as number) * (shapes[Math.floor(id / RATE_COUNT)] as number);
    next[o + AT.ID] = id;
    next[o + AT.LL] = t > 0 ? best + Math.log(t / own) : -1e6;
    const mean = t > 0 ? (sums[id] as Float64Array).map((x) => x / t) : raw;
    write(next, o, mean);
  }
  return next;
}
