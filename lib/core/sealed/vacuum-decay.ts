import { logNormalCdf, normalCdf } from '../fouling/special';

/**
 * What a vacuum does once the pump is shut off: it levels off where water or refrigerant boils out of the oil, and goes
 * on rising in a straight line where air comes in.
 *
 * p(t) = p₀ + A·(1 − e^(−t/τ)) + r·t, p₀ free, A ≥ 0, r ≥ 0. The answer is the posterior over (r, A, τ) on a grid of
 * τ and r; p₀ and A are integrated in closed form. "Levels off: moisture; straight: leak" and 500 microns are common
 * practice; makers' limits come first. A leak is linear while the inside is far below the atmosphere (choked flow, or
 * molecular flow against a constant pressure). Water far below its boiling pressure rises as straight: within the first
 * half hour the two can't be told apart by the gauge, and the words say so. What judges it is a world of other equations
 * (tests/unit/sealed/vacuum-world.ts).
 */

export type VacuumReading = { minutes: number; microns: number };

export type VacuumOptions = {
  /** Where it may level off, microns. */
  limitMicrons?: number;
  /** Repeatability of the gauge: share of the reading and microns, standard deviations. */
  gaugeShare?: number;
  gaugeMicrons?: number;
};

export type VacuumVerdict = 'tight_and_dry' | 'moisture' | 'leak' | 'leak_and_moisture' | 'not_yet' | 'too_high';

export type VacuumJudgement = {
  verdict: VacuumVerdict;
  /** Probabilities, each 0 to 1: air comes in; it levels off above the limit. */
  leak: number;
  wet: number;
  /** Rate of the straight part, microns a minute: median and 80 % band. */
  rate: { median: number; lo: number; hi: number };
  /** Where it would level off without the straight part, microns: median and 80 % band. */
  level: { median: number; lo: number; hi: number };
  /** Minutes more that are worth waiting before deciding; null once decided. */
  waitMinutes: number | null;
};

/** Common practice in this trade. */
export const USUAL_LIMIT_MICRONS = 500;
/** Straight rises slower than this can't be told from a settling system within an hour. Judgement. */
const LEAST_LEAK_PER_MINUTE = 1;
/** Readings and minutes below which nothing is decided but a gross leak. Common practice. */
const LEAST_READINGS = 5;
const LEAST_MINUTES = 10;
const SURE = 0.995;
const MAYBE_LEAK = 0.005;
/** Sure enough to go looking for a leak: looking in vain costs an hour, charging a leaky circuit its charge. */
const LIKELY_LEAK = 0.95;
/** A vacuum gauge's own scale, which repeating a reading can't tell, as a share. Judgement. */
const GAUGE_SCALE_SHARE = 0.05;
/** Half of the opened systems of which nothing is known hold air out. Judgement. */
const PRIOR_TIGHT = 0.5;
/** How far moisture may lift a vacuum, microns: half-normal. Judgement; water at 20 °C boils at 17,500. */
const LIFT_SD = 2000;
/** Noise may be this many times what the gauge's data say. */
const NOISE = [0.6, 1, 1.7, 3] as const;

/**
 * Settles with a time constant of under half an hour at a kitchen's temperature: judgement. Minutes and microns a minute that are looked at, in equal steps of the logarithm, before looking closer. */
const TAU_RANGE: Range = [0.7, 30];
const RATE_RANGE: Range = [0.3, 600];
const STEPS = { tau: 14, rate: 36 };
/** Looked closer at this often, wherever the fit is within e^−CLOSE of the best. */
const ROUNDS = 3;
const CLOSE = 12;

type Range = readonly [number, number];
type Cell = { log: number; weight: number; tau: number; rate: number; level: number; levelSd: number };

/**
 * Judges readings after the pump was isolated, in the order of time.
 * @param readings at least two; minutes since isolation
 * @throws RangeError where minutes do not rise or a reading is not above zero
 */
export function judgeVacuum(readings: readonly VacuumReading[], options: VacuumOptions = {}): VacuumJudgement {
  checked(readings);
  const limit = options.limitMicrons ?? USUAL_LIMIT_MICRONS;
  const cells = posterior(readings, options);
  const leak = share(cells, (c) => (c.rate >= LEAST_LEAK_PER_MINUTE ? 1 : 0));
  const wet = share(cells, (c) => 1 - normalCdf((limit - c.level) / c.levelSd));
  const rate = widened(quantiles(cells.map((c) => [c.rate, c.weight] as const)));
  const level = quantiles(cells.flatMap((c) => [-1.28, 0, 1.28].map((z) => [c.level + z * c.levelSd, c.weight] as const)));
  const verdict = verdictOf(readings, limit, leak, wet);
  return { verdict, leak, wet, rate, level, waitMinutes: verdict === 'not_yet' ? more(readings) : null };
}

function verdictOf(readings: readonly VacuumReading[], limit: number, leak: number, wet: number): VacuumVerdict {
  const [first, last] = [readings[0], readings.at(-1)];
  if (!first || !last) return 'not_yet';
  if (first.microns > limit) return 'too_high';
  if (readings.length < 3) return 'not_yet';
  if (leak > LIKELY_LEAK) return wet > SURE ? 'leak_and_moisture' : 'leak';
  if (readings.length < LEAST_READINGS || last.minutes - first.minutes < LEAST_MINUTES) return 'not_yet';
  // Wet comes first: a small leak can't be seen under a level that high, and is looked for once it is dry.
  if (wet > SURE && leak < 0.5) return 'moisture';
  return leak < MAYBE_LEAK && wet < 1 - SURE && last.microns <= limit ? 'tight_and_dry' : 'not_yet';
}

/** As long again as was watched, at least five minutes: a straight line and a curve part with the square of the time. */
function more(readings: readonly VacuumReading[]): number {
  const watched = (readings.at(-1)?.minutes ?? 0) - (readings[0]?.minutes ?? 0);
  return Math.max(5, Math.min(60, Math.round(watched)));
}

function checked(readings: readonly VacuumReading[]): void {
  if (readings.length < 2) throw new RangeError('A decay test has at least two readings.');
  readings.forEach((r, i) => {
    if (!(r.microns > 0 && Number.isFinite(r.microns))) throw new RangeError(`Reading ${i + 1} is not above zero.`);
    const before = readings[i - 1];
    if (before && !(r.minutes > before.minutes)) throw new RangeError(`Reading ${i + 1} is not later than the one before.`);
  });
}

function posterior(readings: readonly VacuumReading[], options: VacuumOptions): Cell[] {
  const start = readings[0]?.minutes ?? 0;
  const t = readings.map((r) => r.minutes - start);
  const y = readings.map((r) => r.microns);
  const w = y.map((_, i) => smoothed(y, i)).map((p) => 1 / ((options.gaugeMicrons ?? 3) ** 2 + ((options.gaugeShare ?? 0.015) * p) ** 2));
  let [taus, rates]: [Range, Range] = [TAU_RANGE, RATE_RANGE];
  let cells = grid({ t, y, w }, taus, rates);
  for (let round = 1; round < ROUNDS; round++) {
    const top = Math.max(...cells.map((c) => c.log));
    const near = cells.filter((c) => c.log > top - CLOSE);
    taus = around(
      taus,
      STEPS.tau,
      near.map((c) => c.tau),
    );
    rates = around(
      rates,
      STEPS.rate,
      near.flatMap((c) => (c.rate > 0 ? [c.rate] : [])),
    );
    cells = grid({ t, y, w }, taus, rates);
  }
  const top = Math.max(...cells.map((c) => c.log));
  const sum = cells.reduce((s, c) => s + (c.weight = Math.exp(c.log - top)), 0);
  for (const c of cells) c.weight /= sum;
  return cells.filter((c) => c.weight > 1e-9);
}

/** Mean of a reading and its neighbours: a weight taken from one reading alone would lean towards those that read low. */
function smoothed(y: readonly number[], i: number): number {
  const near = y.slice(Math.max(0, i - 2), i + 3);
  return near.reduce((a, b) => a + b, 0) / near.length;
}

const stepOf = ([lo, hi]: Range, steps: number) => Math.log(hi / lo) / (steps - 1);
const points = (range: Range, steps: number) => Array.from({ length: steps }, (_, i) => range[0] * Math.exp(i * stepOf(range, steps)));

/** What was near the best and one step to either side, within the old range; the old range where nothing was. */
function around(range: Range, steps: number, near: readonly number[]): Range {
  if (near.length === 0) return range;
  const step = Math.exp(stepOf(range, steps));
  return [Math.max(range[0], Math.min(...near) / step), Math.min(range[1], Math.max(...near) * step)];
}

type Data = { t: readonly number[]; y: readonly number[]; w: readonly number[] };

function grid({ t, y, w }: Data, taus: Range, rates: Range): Cell[] {
  const total = w.reduce((a, b) => a + b, 0);
  const mean = (x: readonly number[]) => x.reduce((sum, v, i) => sum + v * (w[i] ?? 0), 0) / total;
  const leaky = Math.log(((1 - PRIOR_TIGHT) * stepOf(rates, STEPS.rate)) / Math.log(RATE_RANGE[1] / RATE_RANGE[0]));
  const cells: Cell[] = [];
  for (const tau of points(taus, STEPS.tau)) {
    const g = t.map((ti) => 1 - Math.exp(-ti / tau));
    const gMean = mean(g);
    const sgg = g.reduce((sum, gi, i) => sum + (w[i] ?? 0) * (gi - gMean) ** 2, 0);
    for (const rate of [0, ...points(rates, STEPS.rate)]) {
      const z = y.map((p, i) => p - rate * (t[i] ?? 0));
      const zMean = mean(z);
      let [sgz, szz] = [0, 0];
      for (const [i, zi] of z.entries()) {
        const wi = w[i] ?? 0;
        sgz += wi * ((g[i] ?? 0) - gMean) * (zi - zMean);
        szz += wi * (zi - zMean) ** 2;
      }
      const prior = rate === 0 ? Math.log(PRIOR_TIGHT) : leaky;
      for (const noise of NOISE)
        cells.push({ tau, rate, weight: 0, ...lifted({ sgg, sgz, szz, gMean, zMean, noise, n: y.length, total }, prior) });
    }
  }
  return cells;
}

type Sums = { sgg: number; sgz: number; szz: number; gMean: number; zMean: number; noise: number; n: number; total: number };

/** Integrates A ≥ 0 (half-normal prior) and p₀ (flat): log of the integral, and where it levels off. */
function lifted({ sgg, sgz, szz, gMean, zMean, noise, n, total }: Sums, prior: number): { log: number; level: number; levelSd: number } {
  const s2 = noise * noise;
  const precision = sgg / s2 + 1 / (LIFT_SD * LIFT_SD);
  const centre = sgz / s2 / precision;
  const root = Math.sqrt(precision);
  const inside = logNormalCdf(centre * root);
  const log = prior - (n - 1) * Math.log(noise) - szz / (2 * s2) + (centre * centre * precision) / 2 - Math.log(root * LIFT_SD) + inside;
  // Mean of the truncated normal; its spread is kept whole, which is the careful side.
  const pull = Math.exp(-(centre * centre * precision) / 2 - inside) / (Math.sqrt(2 * Math.PI) * root);
  const lift = centre + pull;
  return { log, level: zMean + lift * (1 - gMean), levelSd: Math.hypot((1 - gMean) / root, noise / Math.sqrt(total)) };
}

const share = (cells: readonly Cell[], of: (c: Cell) => number) => cells.reduce((sum, c) => sum + c.weight * of(c), 0);

function quantiles(weighted: readonly (readonly [number, number])[]): { median: number; lo: number; hi: number } {
  const sorted = [...weighted].sort((a, b) => a[0] - b[0]);
  const total = sorted.reduce((sum, [, weight]) => sum + weight, 0);
  const at = (q: number) => {
    let run = 0;
    for (const [x, weight] of sorted) if ((run += weight) >= q * total) return x;
    return sorted.at(-1)?.[0] ?? NaN;
  };
  return { median: at(0.5), lo: at(0.1), hi: at(0.9) };
}

/** The band with the gauge's own scale in it. */
function widened({ median, lo, hi }: { median: number; lo: number; hi: number }) {
  if (!(median > 0)) return { median, lo, hi };
  const out = (x: number, way: 1 | -1) => median * Math.exp(way * Math.hypot(Math.log(x / median), 1.2816 * GAUGE_SCALE_SHARE));
  return { median, lo: lo > 0 ? out(lo, -1) : 0, hi: out(hi, 1) };
}
