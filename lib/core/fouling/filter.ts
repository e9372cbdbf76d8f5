import { scaledTail } from './special';
import { CEILING_SD, PIECE_SD, RATE_CENTRES, RATE_COUNT, SHAPES, type Hyper } from './hyper';

/**
 * The deposit as a bank of small Kalman filters, one for each piece of the rate and each shape of growth.
 * State: f fresh deposit since the last cleaning, R residue that cleanings left, r rate, q fraction a cleaning leaves.
 * Deposit y = f + R. Within a piece the belief is normal; a grade is an interval seen through an eye's spread, taken
 * by matching its first two moments (Minka 2001, assumed-density filtering). Sources: Kalman 1960; Särkkä 2013,
 * "Bayesian Filtering and Smoothing", ch. 4.
 *
 * Layout of one piece in the array: id, ln likelihood, 4 means, 10 covariances.
 */
export const STRIDE = 16;
const ID = 0;
const LL = 1;
const F = 2;
const R = 3;
const RATE = 4;
const Q = 5;
const FF = 6;
const FR = 7;
const FX = 8;
const FQ = 9;
const RR = 10;
const RX = 11;
const RQ = 12;
const XX = 13;
const XQ = 14;
const QQ = 15;
export const AT = { ID, LL, F, R, RATE, Q, FF, FR, FX, FQ, RR, RX, RQ, XX, XQ, QQ } as const;

/** 0 in a line, 1 levelling off, 2 feeding on itself. */
export const shapeOf = (id: number): number => (id < RATE_COUNT ? 0 : id < 2 * RATE_COUNT ? 1 : 2);

/** The part of the hyperparameters that says how a deposit grows. */
export type Growth = Pick<Hyper, 'levelling' | 'accelerating' | 'diffusion'>;

/** A bank is an array of pieces end to end; all functions below change it in place. */
export type Bank = Float64Array;

/** Sd of the days that a coil had run when nobody knows when it was last cleaned, over their mean. Judgement. */
const UNKNOWN_RUN_SPREAD = 5 / 6;
/** Deposit that even a clean coil may carry against its baseline. */
const RESIDUE = { mean: 0.01, sd: 0.02 };

export function startBank(hyper: Hyper, startedClean: boolean): Bank {
  const bank = new Float64Array(SHAPES * RATE_COUNT * STRIDE);
  const mean = startedClean ? 0 : hyper.unknownRunDays;
  const run = { mean, sd: UNKNOWN_RUN_SPREAD * mean };
  for (let id = 0, o = 0; o < bank.length; id++, o += STRIDE) {
    // A symmetric piece of relative width p has its mean logarithm p²/2 below that of its centre.
    const rate = Math.exp((RATE_CENTRES[id % RATE_COUNT] as number) + PIECE_SD ** 2 / 2);
    const rateVar = (PIECE_SD * rate) ** 2;
    bank[o + ID] = id;
    bank[o + F] = rate * run.mean;
    bank[o + R] = RESIDUE.mean;
    bank[o + RATE] = rate;
    bank[o + Q] = 1 - hyper.restore.mean;
    bank[o + FF] = run.mean ** 2 * rateVar + run.sd ** 2 * (rate * rate + rateVar);
    bank[o + FX] = run.mean * rateVar;
    bank[o + RR] = RESIDUE.sd ** 2;
    bank[o + XX] = rateVar;
    bank[o + QQ] = hyper.restore.unitSd ** 2;
  }
  return bank;
}

/** Days in which a coil of each rate gains a deposit of 1 in a line: growth levels off, and feeds on itself, on that scale. */
const PER_DEPOSIT_DAYS = RATE_CENTRES.map((c) => 1 / Math.exp(c));
/** Deposit on whose scale growth feeds on itself: fins half filled. */
const HALF_FILLED = 0.5;

/**
 * Operational days: growth runs on this clock. `age` is the days since the last cleaning. In a line it is the days
 * themselves; for growth towards a ceiling (Kern–Seaton) τ(1 − e^(−t/τ)), with τ the days in which a coil of that rate would
 * come to it in a line; for growth that feeds on itself a(t/a)^power, with a the days in which it half fills its fins.
 */
export function operationalDays(growth: Growth, id: number, age: number, days: number): number {
  if (id < RATE_COUNT) return days;
  if (id < 2 * RATE_COUNT) {
    const tau = growth.levelling.ceiling * (PER_DEPOSIT_DAYS[id - RATE_COUNT] as number);
    return tau * Math.exp(-age / tau) * -Math.expm1(-days / tau);
  }
  const a = HALF_FILLED * (PER_DEPOSIT_DAYS[id - 2 * RATE_COUNT] as number);
  const { power } = growth.accelerating;
  return a * (((age + days) / a) ** power - (age / a) ** power);
}

/** Nearest to its ceiling that a coil is taken to have come: what is left of its growth is a thousandth. */
const NEAREST = 1 - 1e-3;

/**
 * Days that a coil of a piece has run, by its fresh deposit: the age to go on from where nobody knows when it was last cleaned. One age for
 * every piece would let a coil that levels off be met bare for ever, as if it had long stopped growing with nothing on it.
 */
export function ageByDeposit(growth: Growth, id: number, fresh: number): number {
  if (id < RATE_COUNT || !(fresh > 0)) return 0;
  if (id < 2 * RATE_COUNT) {
    const { ceiling } = growth.levelling;
    return ceiling * (PER_DEPOSIT_DAYS[id - RATE_COUNT] as number) * -Math.log1p(-Math.min(fresh / ceiling, NEAREST));
  }
  return HALF_FILLED * (PER_DEPOSIT_DAYS[id - 2 * RATE_COUNT] as number) * (fresh / HALF_FILLED) ** (1 / growth.accelerating.power);
}

/** Least deposit that growth which feeds on itself is taken to go on from: what even a clean coil may carry, and one sd. */
const LEAST_DEPOSIT = RESIDUE.mean + RESIDUE.sd;
/** Slowest that a piece's rate is taken to be, a day. */
const LEAST_RATE = 1e-6;

/** What some days make of a piece: mean deposit gained is gain·rate, its luck has the variance diffusion·noise·rate. */
export type Step = {
  gain: number;
  noise: number;
  /** Times that a deposit above or below the mean at their beginning counts at their end, and by how much a rate above the mean does. */
  byStart: number;
  byRate: number;
  /** Sd of the gain that comes of not knowing where this coil's growth levels off. */
  unsure: number;
};

const step: Step = { gain: 0, noise: 0, byStart: 1, byRate: 0, unsure: 0 };

/** Gain by which τ(e^(−age/τ) − e^(−(age + days)/τ)) rises for each unit of ln τ. */
function byCeiling(growth: Growth, id: number, age: number, days: number): number {
  const tau = growth.levelling.ceiling * (PER_DEPOSIT_DAYS[id - RATE_COUNT] as number);
  const [from, to] = [age / tau, (age + days) / tau];
  return tau * ((1 + from) * Math.exp(-from) - (1 + to) * Math.exp(-to));
}

/**
 * The days ahead of a piece with such a deposit, fresh and in all, `age` days after its last cleaning (null: nobody knows when that was);
 * `season`: times as fast as over the year. What feeds on itself goes on from all that is there, old or new, so that a coil left half clean does
 * not begin anew, and early luck grows with it: y = r·a·(t/a)^power begun at the t of today's y, and its derivatives. Good until the next call.
 */
export function daysAhead(
  growth: Growth,
  id: number,
  age: number | null,
  days: number,
  season: number,
  at: { fresh: number; deposit: number; rate: number },
): Step {
  if (id < 2 * RATE_COUNT) {
    const run = age ?? ageByDeposit(growth, id, at.fresh);
    const gain = season * operationalDays(growth, id, run, days);
    step.gain = step.noise = step.byRate = gain;
    step.byStart = 1;
    step.unsure = id < RATE_COUNT ? 0 : season * CEILING_SD * byCeiling(growth, id, run, days);
    return step;
  }
  const a = HALF_FILLED * (PER_DEPOSIT_DAYS[id - 2 * RATE_COUNT] as number);
  const { power } = growth.accelerating;
  const from = Math.max(at.deposit, LEAST_DEPOSIT) / (a * Math.max(at.rate, LEAST_RATE));
  const t = from ** (1 / power);
  const u = t + (season * days) / a;
  const to = u ** power;
  step.unsure = 0;
  step.gain = a * (to - from);
  step.byStart = (to * t) / (u * from);
  step.byRate = (season * days * to) / u;
  step.noise = ((a * power) / (2 - power)) * (to / u) ** 2 * ((u * u) / to - (t * t) / from);
  return step;
}

const here = { fresh: 0, deposit: 0, rate: 0 };

/**
 * Lets `days` pass, starting at `age` days after the last cleaning (null: nobody knows when that was); `season`: times as fast as over
 * the year.
 */
export function predict(bank: Bank, hyper: Growth, age: number | null, days: number, season = 1): void {
  if (!(days > 0)) return;
  for (let o = 0; o < bank.length; o += STRIDE) {
    const rate = bank[o + RATE] as number;
    const fresh = bank[o + F] as number;
    here.fresh = fresh;
    here.deposit = fresh + (bank[o + R] as number);
    here.rate = rate;
    const { gain, noise, byStart, byRate, unsure } = daysAhead(hyper, bank[o] as number, age, days, season, here);
    const luck = hyper.diffusion * noise * (rate > 1e-5 ? rate : 1e-5) + (unsure * rate) ** 2;
    const fx = bank[o + FX] as number;
    const xx = bank[o + XX] as number;
    bank[o + F] = fresh + gain * rate;
    if (byStart === 1) {
      bank[o + FF]! += gain * (2 * fx + gain * xx) + luck;
      bank[o + FR]! += gain * (bank[o + RX] as number);
      bank[o + FX] = fx + gain * xx;
      bank[o + FQ]! += gain * (bank[o + XQ] as number);
      continue;
    }
    const more = byStart - 1;
    const [ff, fr, rr, rx] = [bank[o + FF], bank[o + FR], bank[o + RR], bank[o + RX]] as [number, number, number, number];
    bank[o + FF] =
      byStart * byStart * ff +
      more * more * rr +
      byRate * byRate * xx +
      luck +
      2 * (byStart * more * fr + byRate * (byStart * fx + more * rx));
    bank[o + FR] = byStart * fr + more * rr + byRate * rx;
    bank[o + FX] = byStart * fx + more * rx + byRate * xx;
    bank[o + FQ] = byStart * (bank[o + FQ] as number) + more * (bank[o + RQ] as number) + byRate * (bank[o + XQ] as number);
  }
}

/**
 * A cleaning after `age` days: the fraction q of the fresh deposit stays, with that cleaning's own luck. Of that the part
 * `baked` no later cleaning takes off; the rest lies on the fins like fresh deposit. The next cycle's rate may have
 * drifted, since menus, hours and seasons change.
 */
export function clean(bank: Bank, hyper: Pick<Hyper, 'restore' | 'drift'>, age: number): void {
  const luck = hyper.restore.cleaningSd ** 2;
  const drift = (hyper.drift ** 2 * age) / 365.25;
  const { baked } = hyper.restore;
  const loose = 1 - baked;
  for (let o = 0; o < bank.length; o += STRIDE) {
    const f = bank[o + F] as number;
    const q = bank[o + Q] as number;
    const ff = bank[o + FF] as number;
    const fq = bank[o + FQ] as number;
    const qq = bank[o + QQ] as number;
    // What is left, q·f for normal q and f: its mean, variance, and covariances with residue, rate and q.
    const left = q * f + fq;
    const own = q * q * ff + f * f * qq + 2 * q * f * fq + ff * qq + fq * fq + luck * (f * f + ff);
    const withR = q * (bank[o + FR] as number) + f * (bank[o + RQ] as number);
    const withX = q * (bank[o + FX] as number) + f * (bank[o + XQ] as number);
    const withQ = q * fq + f * qq;
    bank[o + R]! += baked * left;
    bank[o + RR]! += 2 * baked * withR + baked * baked * own;
    bank[o + RX]! += baked * withX;
    bank[o + RQ]! += baked * withQ;
    bank[o + XX]! += drift * ((bank[o + RATE] as number) ** 2 + (bank[o + XX] as number));
    bank[o + F] = loose * left;
    bank[o + FF] = loose * loose * own;
    bank[o + FR] = loose * (withR + baked * own);
    bank[o + FX] = loose * withX;
    bank[o + FQ] = loose * withQ;
  }
}

/** What a deep cleaning takes off the residue; judgement: no measurement on kitchen coils was found. */
export const DEEP_TAKES = { mean: 0.85, sd: 0.1 };

/** A deep cleaning, after `clean`: most of what that left goes too, however old. */
export function cleanDeep(bank: Bank): void {
  const left = 1 - DEEP_TAKES.mean;
  for (let o = 0; o < bank.length; o += STRIDE) {
    const r = bank[o + R] as number;
    const rr = bank[o + RR] as number;
    const f = bank[o + F] as number;
    const ff = bank[o + FF] as number;
    const common = DEEP_TAKES.sd ** 2;
    bank[o + R] = left * r;
    bank[o + RR] = left * left * rr + common * (r * r + rr);
    bank[o + F] = left * f;
    bank[o + FF] = left * left * ff + common * (f * f + ff);
    bank[o + FR] = left * left * (bank[o + FR] as number) + common * (f * r + (bank[o + FR] as number));
    for (const k of [RX, RQ, FX, FQ]) bank[o + k]! *= left;
  }
}

/** The same of old deposit alone: what the last cleaning left would come off at the next one anyway. */
export function washOld(bank: Bank): void {
  const left = 1 - DEEP_TAKES.mean;
  for (let o = 0; o < bank.length; o += STRIDE) {
    const r = bank[o + R] as number;
    const rr = bank[o + RR] as number;
    bank[o + R] = left * r;
    bank[o + RR] = left * left * rr + DEEP_TAKES.sd ** 2 * (r * r + rr);
    for (const k of [FR, RX, RQ]) bank[o + k]! *= left;
  }
}

// State moves by (P h)·a, covariance by −(P h)(P h)ᵀ·b, where h picks out y = f + R.
function correct(bank: Bank, o: number, a: number, b: number): void {
  const f = (bank[o + FF] as number) + (bank[o + FR] as number);
  const r = (bank[o + FR] as number) + (bank[o + RR] as number);
  const x = (bank[o + FX] as number) + (bank[o + RX] as number);
  const q = (bank[o + FQ] as number) + (bank[o + RQ] as number);
  bank[o + F]! += f * a;
  bank[o + R]! += r * a;
  bank[o + RATE]! += x * a;
  bank[o + Q]! += q * a;
  bank[o + FF]! -= f * f * b;
  bank[o + FR]! -= f * r * b;
  bank[o + FX]! -= f * x * b;
  bank[o + FQ]! -= f * q * b;
  bank[o + RR]! -= r * r * b;
  bank[o + RX]! -= r * x * b;
  bank[o + RQ]! -= r * q * b;
  bank[o + XX]! -= x * x * b;
  bank[o + XQ]! -= x * q * b;
  bank[o + QQ]! -= q * q * b;
}

export const depositMean = (bank: Bank, o: number): number => (bank[o + F] as number) + (bank[o + R] as number);
export const depositVariance = (bank: Bank, o: number): number =>
  (bank[o + FF] as number) + 2 * (bank[o + FR] as number) + (bank[o + RR] as number);

/** A reading of the deposit with its standard deviation. */
export function observeReading(bank: Bank, deposit: number, sd: number): void {
  const noise = sd * sd;
  for (let o = 0; o < bank.length; o += STRIDE) {
    const s = Math.max(depositVariance(bank, o), 0) + noise;
    const e = deposit - depositMean(bank, o);
    bank[o + LL]! -= 0.5 * ((e * e) / s + Math.log(s));
    correct(bank, o, e / s, 1 / s);
  }
}

const SQRT_2PI_INV = 0.3989422804014327;

/** How a grade is read: spread of the eye, its chance of having misread, and how likely any one grade is then. */
export type Eye = { sd: number; misread: number; any: number };

/**
 * A grade: the deposit lies between two thresholds, seen through an eye; or it was misread and says nothing. A piece
 * becomes the mixture of both, brought back to one normal by its first two moments. Ends may be infinite. `doubt`, if
 * given, is filled with each piece's chance that it was misread.
 */
// eslint-disable-next-line complexity -- runs for each piece of every belief: exponentials and tails are computed once and none is looked for twice
export function observeGrade(bank: Bank, low: number, high: number, eye: Eye, doubt?: Float64Array): void {
  const slip = Math.log(eye.misread * eye.any + 1e-300);
  const sure = Math.log1p(-eye.misread);
  for (let i = 0, o = 0; o < bank.length; i++, o += STRIDE) {
    const mean = depositMean(bank, o);
    const s = Math.sqrt(Math.max(depositVariance(bank, o), 0) + eye.sd * eye.sd);
    const a = (low - mean) / s;
    const b = (high - mean) / s;
    // Exponentials and tails at both ends, each computed once.
    const absA = a < 0 ? -a : a;
    const absB = b < 0 ? -b : b;
    const ea = absA > 37 ? 0 : Math.exp(-0.5 * absA * absA);
    const eb = absB > 37 ? 0 : Math.exp(-0.5 * absB * absB);
    const ta = ea === 0 ? 0 : ea * scaledTail(absA);
    const tb = eb === 0 ? 0 : eb * scaledTail(absB);
    const mass = a > 0 ? ta - tb : b < 0 ? tb - ta : 1 - ta - tb;
    let seen: number;
    let move: number;
    let narrow: number;
    if (mass > 1e-9) {
      const pull = ((ea - eb) * SQRT_2PI_INV) / mass;
      const bend = (ea === 0 ? 0 : a * ea) - (eb === 0 ? 0 : b * eb);
      seen = Math.log(mass);
      move = pull / s;
      narrow = (pull * pull - (bend * SQRT_2PI_INV) / mass) / (s * s);
    } else {
      // Far outside: the nearer edge acts like a reading there.
      const edge = a > 0 ? a : b;
      seen = -(0.5 * edge * edge + Math.log(Math.abs(edge)) + 0.919);
      move = edge / s;
      narrow = 1 / (s * s);
    }
    // Chance that it was not misread, and the log of both ways together.
    const gap = slip - (sure + seen);
    const right = gap > 40 ? 0 : 1 / (1 + Math.exp(gap));
    bank[o + LL]! += gap > 40 ? slip : sure + seen + Math.log1p(Math.exp(gap));
    if (doubt) doubt[i] = 1 - right;
    correct(bank, o, right * move, right * narrow - right * (1 - right) * move * move);
  }
}

/** Pieces whose share of the belief is below e^−9.2 (one in 10,000) go. */
const HOPELESS = 9.2;

/**
 * Drops pieces that prior and evidence together have made hopeless. `logPrior` is ln of each rate piece's prior
 * weight; what a kitchen's other units could add to it is a few units at most.
 */
export function prune(bank: Bank, logPrior: Float64Array): Bank {
  let best = -Infinity;
  for (let o = 0; o < bank.length; o += STRIDE) {
    const score = (bank[o + LL] as number) + (logPrior[(bank[o] as number) % RATE_COUNT] as number);
    if (score > best) best = score;
  }
  const floor = best - HOPELESS;
  let kept = 0;
  for (let o = 0; o < bank.length; o += STRIDE) {
    if ((bank[o + LL] as number) + (logPrior[(bank[o] as number) % RATE_COUNT] as number) < floor) continue;
    if (kept !== o) for (let k = 0; k < STRIDE; k++) bank[kept + k] = bank[o + k] as number;
    kept += STRIDE;
  }
  return kept === bank.length ? bank : bank.subarray(0, kept);
}
