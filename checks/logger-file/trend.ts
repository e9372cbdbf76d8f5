/** A clean value against outdoor air: y = level + slope·(x − centre), with its uncertainty. */
export type Trend = {
  centre: number;
  level: number;
  slope: number;
  /** Scatter of single rows, robust. */
  scatter: number;
  at(x: number): { value: number; sd: number };
};

type Prior = { slope: number; slopeSd: number; leastScatter: number };

/** Residuals beyond this many scatters count for less (Huber's weight with his usual tuning). */
const HUBER = 1.345;

/**
 * Straight line through clean rows, by iteratively reweighted least squares with Huber weights, so that single
 * unsteady rows do not pull it; the slope is drawn to what the model expects when rows span little.
 */
export function cleanTrend(xs: readonly number[], ys: readonly number[], prior: Prior): Trend | null {
  const n = xs.length;
  if (n === 0) return null;
  let weights = new Array<number>(n).fill(1);
  let fit = weighted(xs, ys, weights, prior, prior.leastScatter);
  let scatter = prior.leastScatter;
  for (let pass = 0; pass < 12; pass++) {
    const residuals = xs.map((x, i) => (ys[i] as number) - fit.level - fit.slope * (x - fit.centre));
    scatter = Math.max(prior.leastScatter, 1.4826 * median(residuals.map(Math.abs)));
    weights = residuals.map((r) => Math.min(1, (HUBER * scatter) / Math.max(Math.abs(r), 1e-300)));
    fit = weighted(xs, ys, weights, prior, scatter);
  }
  const { centre, level, slope, levelSd, slopeSd } = fit;
  const at = (x: number) => ({ value: level + slope * (x - centre), sd: Math.hypot(levelSd, slopeSd * (x - centre)) });
  return { centre, level, slope, scatter, at };
}

function weighted(xs: readonly number[], ys: readonly number[], w: readonly number[], prior: Prior, scatter: number) {
  const sum = w.reduce((a, b) => a + b, 0);
  const mean = (v: readonly number[]) => v.reduce((a, x, i) => a + x * (w[i] as number), 0) / sum;
  const centre = mean(xs);
  const level = mean(ys);
  let sxx = 0;
  let sxy = 0;
  xs.forEach((x, i) => {
    sxx += (w[i] as number) * (x - centre) ** 2;
    sxy += (w[i] as number) * (x - centre) * ((ys[i] as number) - level);
  });
  // Ridge towards the prior slope, in units of the scatter: the conjugate normal update.
  const pull = (scatter / prior.slopeSd) ** 2;
  const slope = (sxy + pull * prior.slope) / (sxx + pull);
  return { centre, level, slope, levelSd: scatter / Math.sqrt(sum), slopeSd: scatter / Math.sqrt(sxx + pull) };
}

function median(v: readonly number[]): number {
  const s = [...v].sort((a, b) => a - b);
  const mid = s.length >> 1;
  return s.length % 2 ? (s[mid] as number) : ((s[mid - 1] as number) + (s[mid] as number)) / 2;
}
