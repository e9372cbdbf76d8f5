/**
 * A yearly course of the rate: s(d) = (1 − share) + share·e^(κ cos 2π(d − peak)/365.25)/I₀(κ), mean 1 over a year. κ small: summer
 * against winter; κ large: a few weeks of fluff. (von Mises 1918; Mardia & Jupp 2000, "Directional Statistics".)
 */
export type Season = { share: number; kappa: number; /** Day of the year, 0 = 1 January, of the fastest growth. */ peak: number };

const YEAR = 365.25;
/** Day number (days since 1970-01-01) to days into the year, near enough for a season. */
const intoYear = (day: number): number => ((day % YEAR) + YEAR) % YEAR;

const tables = new Map<string, Float64Array>();

/** Season days gathered from 1 January up to each day of the year; 365.25 in a whole year. */
function gathered({ share, kappa, peak }: Season): Float64Array {
  const key = `${share} ${kappa} ${peak}`;
  const hit = tables.get(key);
  if (hit) return hit;
  const cumulative = new Float64Array(367);
  for (let d = 0; d < 366; d++)
    cumulative[d + 1] = (cumulative[d] as number) + Math.exp(kappa * (Math.cos((2 * Math.PI * (d + 0.5 - peak)) / YEAR) - 1));
  const total = (cumulative[365] as number) + 0.25 * ((cumulative[366] as number) - (cumulative[365] as number));
  for (let d = 0; d < 367; d++) cumulative[d] = (1 - share) * d + (share * YEAR * (cumulative[d] as number)) / total;
  tables.set(key, cumulative);
  return cumulative;
}

function upTo(table: Float64Array, day: number): number {
  const d = intoYear(day);
  const i = Math.floor(d);
  const within = (table[i] as number) + (d - i) * ((table[i + 1] as number) - (table[i] as number));
  return Math.floor(day / YEAR) * YEAR + within;
}

/** How much faster than over the year a coil fouls in the `days` after `day`; 1 without a season. */
export function seasonFactor(season: Season | undefined, day: number, days: number): number {
  if (!season || !(days > 0)) return 1;
  const table = gathered(season);
  return (upTo(table, day + days) - upTo(table, day)) / days;
}
