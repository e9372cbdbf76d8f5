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

/** Adds `w` times the raw moments of the piece at `o` to `into`, those of the rate left out: it is drawn anew. Written out, as `mixInto` is. */
function addRaw(into: Float64Array, bank: Bank, o: number, w: number): void {
  const f = bank[o + AT.F] as number;
  const r = bank[o + AT.R] as number;
  const q = bank[o + AT.Q] as number;
  into[0]! += w * f;
  into[1]! += w * r;
  into[3]! += w * q;
  into[4]! += w * ((bank[o + AT.FF] as number) + f * f);
  into[5]! += w * ((bank[o + AT.FR] as number) + f * r);
  into[7]! += w * ((bank[o + AT.FQ] as number) + f * q);
  into[8]! += w * ((bank[o + AT.RR] as number) + r * r);
  into[10]! += w * ((bank[o + AT.RQ] as number) + r * q);
  into[13]! += w * ((bank[o + AT.QQ] as number) + q * q);
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

const all = new Float64Array(SIZE);

/** Everybody's state into `all`, means and covariances, each piece by its share. Returns the sum of the shares. */
function everybody(bank: Bank, best: number, prior: PriorTable, shapes: readonly number[]): number {
  all.fill(0);
  let z = 0;
  for (let o = 0; o < bank.length; o += STRIDE) {
    const w = shareOf(bank, o, best, prior, shapes);
    z += w;
    addRaw(all, bank, o, w);
  }
  for (let k = 0; k < SIZE; k++) all[k]! /= z;
  for (let k = 0; k < PAIRS.length; k++) {
    const [i, j] = PAIRS[k] as readonly [number, number];
    all[MEANS + k]! -= (all[i] as number) * (all[j] as number);
  }
  return z;
}

/**
 * Writes at `o` of `next` the mixture, `a` to `b`, of the piece at `from` of `bank` with everybody's state and a rate of its own. Written out term by term: it runs for each piece at each cleaning of every history.
 */
function mixInto(next: Bank, o: number, bank: Bank, from: number, a: number, b: number, rate: number): void {
  const mf = all[0] as number;
  const mr = all[1] as number;
  const mq = all[3] as number;
  const f = bank[from + AT.F] as number;
  const r = bank[from + AT.R] as number;
  const x = bank[from + AT.RATE] as number;
  const q = bank[from + AT.Q] as number;
  const df = f - mf;
  const dr = r - mr;
  const dx = x - rate;
  const dq = q - mq;
  const ab = a * b;
  next[o + AT.F] = a * f + b * mf;
  next[o + AT.R] = a * r + b * mr;
  next[o + AT.RATE] = a * x + b * rate;
  next[o + AT.Q] = a * q + b * mq;
  next[o + AT.FF] = a * (bank[from + AT.FF] as number) + b * (all[4] as number) + ab * df * df;
  next[o + AT.FR] = a * (bank[from + AT.FR] as number) + b * (all[5] as number) + ab * df * dr;
  next[o + AT.FX] = a * (bank[from + AT.FX] as number) + ab * df * dx;
  next[o + AT.FQ] = a * (bank[from + AT.FQ] as number) + b * (all[7] as number) + ab * df * dq;
  next[o + AT.RR] = a * (bank[from + AT.RR] as number) + b * (all[8] as number) + ab * dr * dr;
  next[o + AT.RX] = a * (bank[from + AT.RX] as number) + ab * dr * dx;
  next[o + AT.RQ] = a * (bank[from + AT.RQ] as number) + b * (all[10] as number) + ab * dr * dq;
  next[o + AT.XX] = a * (bank[from + AT.XX] as number) + b * (PIECE_SD * rate) ** 2 + ab * dx * dx;
  next[o + AT.XQ] = a * (bank[from + AT.XQ] as number) + ab * dx * dq;
  next[o + AT.QQ] = a * (bank[from + AT.QQ] as number) + b * (all[13] as number) + ab * dq * dq;
}

/** The same of a piece that was given up earlier: it begins again as everybody, with a rate of its own. */
function beginAgain(next: Bank, o: number, rate: number): void {
  for (let k = 0; k < SIZE; k++) next[o + FIRST + k] = all[k] as number;
  next[o + AT.RATE] = rate;
  next[o + AT.FX] = next[o + AT.RX] = next[o + AT.XQ] = 0;
  next[o + AT.XX] = (PIECE_SD * rate) ** 2;
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
  const next = new Float64Array(COUNT * STRIDE);
  const anew = chance * everybody(bank, best, prior, shapes);
  for (let id = 0; id < COUNT; id++) {
    const from = at[id] as number;
    const own = from < 0 ? 0 : (1 - chance) * Math.exp((bank[from + AT.LL] as number) - best);
    const o = id * STRIDE;
    next[o + AT.ID] = id;
    next[o + AT.LL] = best + Math.log(own + anew);
    const rate = REDRAWN[id % RATE_COUNT] as number;
    if (from < 0) beginAgain(next, o, rate);
    else mixInto(next, o, bank, from, own / (own + anew), anew / (own + anew), rate);
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
