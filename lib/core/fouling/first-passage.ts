import { gammaQ, logNormalCdf, normalCdf } from './special';

/**
 * P(T ≤ t) for the first passage of a Wiener process with drift through `level` > 0: inverse Gaussian.
 * drift per day, sigma per √day, t in days. Source: Cox & Miller 1965, "The Theory of Stochastic Processes".
 */
export function wienerPassage(level: number, drift: number, sigma: number, t: number): number {
  return passage(level, drift * t, sigma * sigma * t, 0);
}

/** Mean L/μ and variance Lσ²/μ³ of that passage time, in days and days². */
export function wienerPassageMoments(level: number, drift: number, sigma: number): { mean: number; variance: number } {
  return { mean: level / drift, variance: (level * sigma * sigma) / drift ** 3 };
}

/**
 * The same with an uncertain advance: at the time asked, the mean advance is `advance`, process noise has variance
 * `noise`, and what is not known of drift and start adds `spread` to the variance of the advance. Exact for a normal
 * drift and a known start (Whitmore 1986, "Normal-gamma mixtures of inverse Gaussian distributions", the normal case).
 */
export function passage(distance: number, advance: number, noise: number, spread: number): number {
  if (distance <= 0) return 1;
  const total = noise + spread;
  if (!(total > 0)) return advance >= distance ? 1 : 0;
  const root = Math.sqrt(total);
  // More than six standard deviations either way there is nothing left to tell.
  if (advance - distance > 6 * root) return 1;
  if (advance - distance < -6 * root) return 0;
  const direct = normalCdf((advance - distance) / root);
  if (!(noise > 1e-12)) return direct;
  const ratio = spread / noise;
  const exponent = (2 * distance * (advance + distance * ratio)) / noise;
  const reflected = exponent + logNormalCdf(-(advance + distance + 2 * distance * ratio) / root);
  return Math.min(1, direct + (reflected < -40 ? 0 : Math.exp(reflected)));
}

/** P(T ≤ t) for a gamma process with shape v per day and scale u: Q(vt, L/u). Source: van Noortwijk 2009, "A survey of the application of gamma processes in maintenance". */
export function gammaPassage(level: number, shapePerDay: number, scale: number, t: number): number {
  return t <= 0 ? 0 : gammaQ(shapePerDay * t, level / scale);
}

/** Days for ln K to fall from 0 to ln(threshold) at `k` per day: ln(1/threshold)/k. */
export function decayDays(threshold: number, k: number): number {
  return Math.log(1 / threshold) / k;
}
