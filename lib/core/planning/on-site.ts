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
