import { counted } from '../wording/counted';
import { learnAccess, type LearnedAccess } from './learn-access';
import { learnMinutes, type LearnedFactor } from './learn-minutes';

/** How long work takes at one kitchen: minutes before and after it, and time over standard time. */
export interface SiteTime {
  readonly accessMinutes: number;
  readonly durationFactor: number;
  /** The factor with its band; of this kitchen's own visits, or the shop's where it has none. */
  readonly learned: LearnedFactor;
  readonly own: boolean;
}

export interface SiteTimes {
  readonly access: LearnedAccess;
  /** For a kitchen without finished visits. */
  readonly shop: SiteTime;
  readonly kitchens: ReadonlyMap<string, SiteTime>;
}

/** Learns access and duration factor from finished visits; where there are none, the standard stands. */
export function learnSiteTimes(visits: readonly { kitchenId: string; taskMinutes: number; minutes: number }[]): SiteTimes {
  const access = learnAccess(visits);
  const done = visits.filter(({ taskMinutes }) => taskMinutes > 0);
  const { shop, kitchens } = learnMinutes(
    done.map(({ kitchenId, taskMinutes, minutes }) => ({
      kitchenId,
      minutes,
      standardMinutes: access.minutes + taskMinutes,
    })),
  );
  const time = (learned: LearnedFactor, own: boolean): SiteTime => ({
    accessMinutes: access.minutes * learned.factor,
    durationFactor: learned.factor,
    learned,
    own,
  });
  return {
    access,
    shop: time(shop, false),
    kitchens: new Map([...kitchens].map(([id, learned]) => [id, time(learned, true)])),
  };
}

export const siteTimeOf = (times: SiteTimes, kitchenId: string): SiteTime => times.kitchens.get(kitchenId) ?? times.shop;

/** Minutes to book for tasks of so many standard minutes, counted as the planner counts them: whole minutes a task. */
export function minutesOnSite(time: Pick<SiteTime, 'accessMinutes' | 'durationFactor'>, taskMinutes: readonly number[]): number {
  return taskMinutes.reduce(
    (sum, minutes) => sum + Math.max(1, Math.ceil(minutes * time.durationFactor - 1e-9)),
    Math.ceil(time.accessMinutes),
  );
}

/** "usually 1.3 × standard here (1.1–1.5), from 9 visits". */
export function siteTimeWords({ learned, own }: SiteTime): string {
  const { factor, low, high, visits } = learned;
  if (visits === 0) return 'by standard minutes, no finished visit to learn from yet';
  const digits = high - low < 0.1 ? 2 : 1;
  const [mean, from, to] = [factor, low, high].map((x) => x.toFixed(digits));
  const count = counted(visits, 'visit');
  return own
    ? `usually ${mean} × standard here (${from}–${to}), from ${count}`
    : `no finished visit here yet; ${mean} × standard in this shop (${from}–${to}), from ${count}`;
}

/** No visit is booked for less: somebody has to find the unit. */
const LEAST_MINUTES = 15;
const ROUND_TO = 5;

/** Minutes to book, rounded up to five. */
export const bookedMinutes = (time: Pick<SiteTime, 'accessMinutes' | 'durationFactor'>, taskMinutes: readonly number[]): number =>
  Math.min(720, Math.max(LEAST_MINUTES, Math.ceil(minutesOnSite(time, taskMinutes) / ROUND_TO) * ROUND_TO));

/** How a length came about: "44 standard minutes become 57 here (usually 1.3 × …), 5 to get in and out: 65 min, rounded up to five." */
export function lengthWords(time: SiteTime, taskMinutes: readonly number[]): string {
  const standard = taskMinutes.reduce((sum, m) => sum + m, 0);
  const access = Math.ceil(time.accessMinutes);
  const all = minutesOnSite(time, taskMinutes);
  const booked = bookedMinutes(time, taskMinutes);
  const rounding = all < LEAST_MINUTES ? `, never less than ${LEAST_MINUTES}` : booked > all ? ', rounded up to five' : '';
  return `${standard} standard minutes take ${all - access} (${siteTimeWords(time)}), and ${access} to get in and out: ${booked} min${rounding}.`;
}
