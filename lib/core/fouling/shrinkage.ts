/**
 * Normal partial pooling: an estimate and its standard error against a group's mean and spread (both standard
 * deviations), all in one unit. Returns mean and sd. Source: Gelman et al., "Bayesian Data Analysis", §5.4.
 */
export function partialPool(estimate: number, se: number, groupMean: number, groupSd: number): { mean: number; sd: number } {
  const own = 1 / (se * se);
  const group = 1 / (groupSd * groupSd);
  return { mean: (estimate * own + groupMean * group) / (own + group), sd: Math.sqrt(1 / (own + group)) };
}

/**
 * James–Stein shrinkage of proportions towards their mean, as Efron & Morris 1977, "Stein's Paradox in Statistics".
 * `trials` are alike for all. Returns the grand mean, the shrinking factor c and the estimates.
 */
export function jamesStein(hits: readonly number[], trials: number): { mean: number; factor: number; estimates: number[] } {
  const rates = hits.map((h) => h / trials);
  const mean = rates.reduce((a, b) => a + b, 0) / rates.length;
  const variance = (mean * (1 - mean)) / trials;
  const spread = rates.reduce((a, y) => a + (y - mean) ** 2, 0);
  const factor = 1 - ((rates.length - 3) * variance) / spread;
  return { mean, factor, estimates: rates.map((y) => mean + factor * (y - mean)) };
}
