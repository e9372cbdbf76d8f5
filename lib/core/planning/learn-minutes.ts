/** One visit that is over: what it should have taken by the standard minutes and what it took. */
export interface FinishedVisit {
  readonly kitchenId: string;
  /** Access and task minutes by the book. */
  readonly standardMinutes: number;
  /** From arriving to leaving. */
  readonly minutes: number;
}

/** Time on site over standard time, with its 90 % band. */
export interface LearnedFactor {
  readonly factor: number;
  readonly low: number;
  readonly high: number;
  readonly visits: number;
}

export interface LearnedMinutes {
  /** A kitchen nothing is known of yet. */
  readonly shop: LearnedFactor;
  readonly kitchens: ReadonlyMap<string, LearnedFactor>;
}

/** Beyond these a visit was not timed but forgotten (never closed, or closed at once). */
const LEAST = Math.log(0.25);
const MOST = Math.log(4);
/** Spread of the log ratio within and between kitchens before there is data to tell; common practice, not a source. */
const WITHIN = 0.3;
const BETWEEN = 0.2;
/** How many visits and kitchens those guesses weigh. */
const WEIGHT = 4;
const BAND = 1.645;

/**
 * Learns how much longer or shorter each kitchen takes than the standard minutes. The log
 * of the ratio has a normal spread within a kitchen and between kitchens (one-way random
 * effects, variances by moments), and each kitchen is drawn towards the shop's mean by as
 * much as its own visits leave open. Visits without times are ignored.
 */
export function learnMinutes(visits: readonly FinishedVisit[]): LearnedMinutes {
  const ratios = new Map<string, number[]>();
  for (const { kitchenId, standardMinutes, minutes } of visits) {
    if (!(standardMinutes > 0) || !(minutes > 0) || !Number.isFinite(minutes / standardMinutes)) continue;
    const log = Math.min(MOST, Math.max(LEAST, Math.log(minutes / standardMinutes)));
    ratios.set(kitchenId, [...(ratios.get(kitchenId) ?? []), log]);
  }
  const groups = [...ratios.values()];
  const within = withinVariance(groups);
  const between = betweenVariance(groups, within);
  const weights = groups.map((logs) => 1 / (between + within / logs.length));
  // One visit's weight of "as by the book", so that an empty shop is not infinitely unsure.
  const prior = 1 / (WITHIN ** 2 + BETWEEN ** 2);
  const total = weights.reduce((a, b) => a + b, prior);
  const mean = groups.reduce((sum, logs, i) => sum + weights[i]! * average(logs), 0) / total;
  // The spreads are estimates from so many kitchens: a normal band would be too narrow (Student's t, first order).
  const spreadDoubt = 1 + 2 / (groups.length + WEIGHT);
  const kitchens = new Map<string, LearnedFactor>();
  for (const [id, logs] of ratios) {
    const own = between / (between + within / logs.length);
    const away = average(logs) - mean;
    // Beyond the spread left over: how sure the shop's mean and the two spreads themselves are (after Morris 1983).
    const unsure = (1 - own) ** 2 * (1 / total + (2 * away ** 2) / (groups.length + WEIGHT));
    kitchens.set(id, band(mean + own * away, ((1 - own) * between + unsure) * spreadDoubt, logs.length));
  }
  return { shop: band(mean, between + 1 / total, visits.length), kitchens };
}

const average = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

function withinVariance(groups: readonly (readonly number[])[]): number {
  let squares = WEIGHT * WITHIN ** 2;
  let freedom = WEIGHT;
  for (const logs of groups) {
    const mean = average(logs);
    for (const log of logs) squares += (log - mean) ** 2;
    freedom += logs.length - 1;
  }
  return squares / freedom;
}

/** What the spread of the kitchens' means shows beyond the spread within them, never below zero. */
function betweenVariance(groups: readonly (readonly number[])[], within: number): number {
  const guess = BETWEEN ** 2;
  if (groups.length < 2) return guess;
  const means = groups.map(average);
  const mean = average(means);
  const spread = means.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (groups.length - 1);
  const noise = average(groups.map((logs) => within / logs.length));
  const seen = Math.max(0, spread - noise);
  return (WEIGHT * guess + (groups.length - 1) * seen) / (WEIGHT + groups.length - 1);
}

function band(log: number, variance: number, visits: number): LearnedFactor {
  const half = BAND * Math.sqrt(variance);
  return { factor: Math.exp(log), low: Math.exp(log - half), high: Math.exp(log + half), visits };
}
