/**
 * Optimal intervals in closed form, or nearly so. They check the general optimiser and explain its answers.
 * Times in days, costs in one currency, rates per day. `null` = no finite optimum.
 */
export type Optimum = { days: number; costRate: number } | null;

/** Bisection for a function that changes sign once on (0, ∞). */
function crossing(f: (x: number) => number): number {
  let high = 1;
  while (f(high) < 0 && high < 1e12) high *= 2;
  let low = 0;
  for (let i = 0; i < 200 && high - low > 1e-15 * high; i++) {
    const mid = (low + high) / 2;
    if (f(mid) < 0) low = mid;
    else high = mid;
  }
  return (low + high) / 2;
}

/** Penalty a·t per day against a cleaning cost C: g = C/T + aT/2, T* = √(2C/a) (the square-root law; Harris 1913). */
export function linearPenalty(cleaningCost: number, penaltyPerDay2: number): Optimum {
  if (!(penaltyPerDay2 > 0)) return null;
  return {
    days: Math.sqrt((2 * cleaningCost) / penaltyPerDay2),
    costRate: Math.sqrt(2 * cleaningCost * penaltyPerDay2),
  };
}

/** Penalty p∞(1 − e^(−t/τ)): finite only when C < p∞τ (Kern & Seaton 1959 growth; Epstein's cyclic optimum, from memory). */
export function asymptoticPenalty(cleaningCost: number, ceilingPerDay: number, tau: number): Optimum {
  if (cleaningCost >= ceilingPerDay * tau) return null;
  const x = crossing((y) => ceilingPerDay * tau * (1 - (1 + y) * Math.exp(-y)) - cleaningCost);
  return { days: x * tau, costRate: ceilingPerDay * (1 - Math.exp(-x)) };
}

/**
 * Age replacement of a Weibull life (shape β, scale η): planned cost cp, cost at failure cf. `null` when β ≤ 1 or
 * cf ≤ cp. `costRatio` is against running to failure. Source: Barlow & Proschan 1965.
 */
export function ageReplacement(
  shape: number,
  scale: number,
  planned: number,
  failure: number,
): (NonNullable<Optimum> & { costRatio: number }) | null {
  if (shape <= 1 || failure <= planned) return null;
  const survival = (u: number) => Math.exp(-(u ** shape));
  const area = (x: number) => simpson(survival, 0, x);
  const target = planned / (failure - planned);
  const x = crossing((u) => shape * u ** (shape - 1) * area(u) - (1 - survival(u)) - target);
  const rate = (planned * survival(x) + failure * (1 - survival(x))) / (area(x) * scale);
  const runToFailure = failure / (simpson(survival, 0, 12) * scale);
  return { days: x * scale, costRate: rate, costRatio: rate / runToFailure };
}

function simpson(f: (x: number) => number, a: number, b: number, n = 2000): number {
  const h = (b - a) / n;
  let sum = f(a) + f(b);
  for (let i = 1; i < n; i++) sum += f(a + i * h) * (i % 2 === 1 ? 4 : 2);
  return (sum * h) / 3;
}

/** Periodic renewal with minimal repair of a Weibull intensity: T* = η[cp/(cm(β−1))]^(1/β). Source: Barlow & Hunter 1960. */
export function minimalRepair(shape: number, scale: number, renewal: number, repair: number): Optimum {
  if (shape <= 1) return null;
  const days = scale * (renewal / (repair * (shape - 1))) ** (1 / shape);
  return { days, costRate: (renewal + repair * (days / scale) ** shape) / days };
}

/**
 * Days between looks for a failure that stays hidden and comes at `rate`: e^(λτ) − 1 − λτ = λ·ci/cd, with ci the cost
 * of a look and cd the cost of a day in the failed state. Source: Barlow, Hunter & Proschan 1963, "Optimum checking
 * procedures".
 */
export function hiddenFailure(rate: number, look: number, failedDay: number): { days: number; approximate: number } | null {
  if (!(rate > 0) || !(failedDay > 0)) return null;
  const x = crossing((y) => Math.expm1(y) - y - (rate * look) / failedDay);
  return { days: x / rate, approximate: Math.sqrt((2 * look) / (rate * failedDay)) };
}
