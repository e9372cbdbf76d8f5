import { AT, STRIDE, type Bank } from './filter';
import { PIECE_SD, RATE_CENTRES, RATE_COUNT, shapePrior, SHAPES, type Hyper, type PriorTable } from './hyper';

const COUNT = SHAPES * RATE_COUNT;

/** Piece j of a full bank when its rate is as its prior says. */
function freshRate(id: number): { rate: number; variance: number } {
  const rate = Math.exp((RATE_CENTRES[id % RATE_COUNT] as number) + PIECE_SD ** 2 / 2);
  return { rate, variance: (PIECE_SD * rate) ** 2 };
}

/**
 * Just after a cleaning: with probability `chance` the kitchen is not what it was, and the rate is drawn anew from what
 * its placement makes likely. Each piece's likelihood becomes (1 − chance)·L + chance·Z with Z the evidence so far (the
 * fixed-share update of Herbster & Warmuth 1998), and its state the mixture of its own and everybody's, matched in two
 * moments. Fresh deposit must be zero. Returns a full bank; pieces given up earlier come back.
 */
export function allowChange(bank: Bank, hyper: Hyper, prior: PriorTable, chance: number): Bank {
  const shapes = shapePrior(hyper);
  let best = -Infinity;
  for (let o = AT.LL; o < bank.length; o += STRIDE) best = Math.max(best, bank[o] as number);
  // Residue and cleaning of the unit, whatever its rate.
  let z = 0;
  let [r, q, rr, rq, qq] = [0, 0, 0, 0, 0];
  const at = new Int32Array(COUNT).fill(-1);
  for (let o = 0; o < bank.length; o += STRIDE) {
    const id = bank[o] as number;
    at[id] = o;
    const w =
      Math.exp((bank[o + AT.LL] as number) - best) *
      (prior.marginal[id % RATE_COUNT] as number) *
      (shapes[Math.floor(id / RATE_COUNT)] as number);
    const mr = bank[o + AT.R] as number;
    const mq = bank[o + AT.Q] as number;
    z += w;
    r += w * mr;
    q += w * mq;
    rr += w * (mr * mr + (bank[o + AT.RR] as number));
    rq += w * (mr * mq + (bank[o + AT.RQ] as number));
    qq += w * (mq * mq + (bank[o + AT.QQ] as number));
  }
  [r, q, rr, rq, qq] = [r / z, q / z, rr / z, rq / z, qq / z];
  const next = new Float64Array(COUNT * STRIDE);
  for (let id = 0; id < COUNT; id++) {
    const o = id * STRIDE;
    const { rate, variance } = freshRate(id);
    const from = at[id] as number;
    const own = from < 0 ? 0 : (1 - chance) * Math.exp((bank[from + AT.LL] as number) - best);
    const anew = chance * z;
    const a = own / (own + anew);
    const b = 1 - a;
    const get = (k: number) => (from < 0 ? 0 : (bank[from + k] as number));
    next[o + AT.ID] = id;
    next[o + AT.LL] = best + Math.log(own + anew);
    const x0 = get(AT.RATE);
    const r0 = get(AT.R);
    const q0 = get(AT.Q);
    const mx = a * x0 + b * rate;
    const mr = a * r0 + b * r;
    const mq = a * q0 + b * q;
    next[o + AT.RATE] = mx;
    next[o + AT.R] = mr;
    next[o + AT.Q] = mq;
    next[o + AT.XX] = a * (get(AT.XX) + x0 * x0) + b * (variance + rate * rate) - mx * mx;
    next[o + AT.RR] = a * (get(AT.RR) + r0 * r0) + b * rr - mr * mr;
    next[o + AT.QQ] = a * (get(AT.QQ) + q0 * q0) + b * qq - mq * mq;
    next[o + AT.RQ] = a * (get(AT.RQ) + r0 * q0) + b * rq - mr * mq;
    next[o + AT.RX] = a * (get(AT.RX) + r0 * x0) + b * r * rate - mr * mx;
    next[o + AT.XQ] = a * (get(AT.XQ) + x0 * q0) + b * rate * q - mx * mq;
  }
  return next;
}
