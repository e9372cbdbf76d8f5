/** One finished visit: standard minutes of the tasks done there, and minutes from arriving to leaving. */
export interface TimedVisit {
  readonly taskMinutes: number;
  readonly minutes: number;
}

/** Minutes of a visit that its tasks do not account for, in standard minutes, with their 90 % band. */
export interface LearnedAccess {
  readonly minutes: number;
  readonly low: number;
  readonly high: number;
  readonly visits: number;
}

/** Parking, signing in, finding the key, before there is data to tell; common practice, not a source. */
export const STANDARD_ACCESS = 10;
const ACCESS_SD = 5;
const SPEED_SD = 0.5;
/** Spread of a visit's minutes over what was expected, and how many visits that guess weighs. */
const NOISE = 0.35;
const WEIGHT = 4;
const MOST = 45;
const BAND = 1.645;
const ROUNDS = 30;

/**
 * Splits time on site into access and tasks: minutes = A + s × task minutes, with a spread in
 * proportion to the whole. Bayesian weighted least squares with the priors above, weights
 * worked out anew until they settle; access in standard minutes is A / s, its band by the
 * delta method. Visits forgotten open or closed at once (a quarter or four times the standard)
 * are left out.
 */
export function learnAccess(visits: readonly TimedVisit[]): LearnedAccess {
  const timed = visits.filter(({ taskMinutes, minutes }) => {
    const ratio = minutes / (STANDARD_ACCESS + taskMinutes);
    return taskMinutes > 0 && ratio >= 0.25 && ratio <= 4;
  });
  let a = STANDARD_ACCESS;
  let s = 1;
  let spread = NOISE ** 2;
  let cov = { aa: ACCESS_SD ** 2, as: 0, ss: SPEED_SD ** 2 };
  for (let round = 0; round < ROUNDS; round++) {
    let [paa, pas, pss] = [1 / ACCESS_SD ** 2, 0, 1 / SPEED_SD ** 2];
    let [ba, bs] = [STANDARD_ACCESS * paa, pss];
    let squares = WEIGHT * NOISE ** 2;
    for (const { taskMinutes: w, minutes: m } of timed) {
      const fit = Math.max(1, a + s * w);
      const weight = 1 / (spread * fit * fit);
      squares += ((m - fit) / fit) ** 2;
      paa += weight;
      pas += weight * w;
      pss += weight * w * w;
      ba += weight * m;
      bs += weight * w * m;
    }
    spread = squares / (WEIGHT + timed.length);
    const det = paa * pss - pas * pas;
    cov = { aa: pss / det, as: -pas / det, ss: paa / det };
    a = cov.aa * ba + cov.as * bs;
    s = Math.max(0.1, cov.as * ba + cov.ss * bs);
  }
  const within = (minutes: number): number => Math.min(MOST, Math.max(0, minutes));
  const mean = a / s;
  const half = (BAND * Math.sqrt(Math.max(0, cov.aa - 2 * mean * cov.as + mean * mean * cov.ss))) / s;
  return { minutes: within(mean), low: within(mean - half), high: within(mean + half), visits: timed.length };
}
