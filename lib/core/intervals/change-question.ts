import type { LocalDate } from '../calendar';
import type { SaidChange } from '../fouling';
import { counted } from '../wording/counted';
import { dayInWords } from './words';

/** What the office can say when it is asked what changed in a kitchen. */
export const CHANGE_ANSWERS = ['equipment', 'menu', 'hours', 'other', 'nothing'] as const;
export type ChangeAnswer = (typeof CHANGE_ANSWERS)[number];
export const CHANGE_ANSWER_LABEL: Record<ChangeAnswer, string> = {
  equipment: 'Cooking equipment came or went',
  menu: 'Another menu',
  hours: 'Other hours',
  other: 'Something else',
  nothing: 'Nothing changed',
};

/** Grades of a kitchen's coils on one day against what was expected of them: how many, and steps worse than expected with the variance of that sum. */
export type DayOfLooks = { on: LocalDate; looks: number; worse: number; variance: number };
export type FoundChange = { since: LocalDate; breathes: SaidChange; looks: number };

/** Half the shift that is looked for, and the sum that calls it, in standard deviations of a day of looks (Page 1954). */
const ALLOWED = 0.5;
export const CALLED = 4;

/**
 * Whether a kitchen's coils have come out other than expected, day after day: a two-sided cumulative sum of the days' own surprises.
 * With nothing changed it calls about once in 170 days of looks (Siegmund 1985, "Sequential Analysis", eq. 2.57); after a change that
 * moves a day's looks by 2.5 sd, on the second. Null as long as it has not called by the last day.
 */
export function foundChange(days: readonly DayOfLooks[]): FoundChange | null {
  const one = (sign: 1 | -1): FoundChange | null => {
    let [sum, looks] = [0, 0];
    let since: LocalDate | null = null;
    for (const d of days) {
      if (!(d.variance > 0)) continue;
      sum = Math.max(0, sum + (sign * d.worse) / Math.sqrt(d.variance) - ALLOWED);
      if (sum === 0) [since, looks] = [null, 0];
      else [since, looks] = [since ?? d.on, looks + d.looks];
    }
    return since !== null && sum >= CALLED ? { since, breathes: sign > 0 ? 'more' : 'less', looks } : null;
  };
  return one(1) ?? one(-1);
}

/** "Dirtier than expected at 5 looks since 12 Oct 2026." */
export const changeSigns = ({ since, breathes, looks }: FoundChange): string =>
  `Coils were ${breathes === 'more' ? 'dirtier' : 'cleaner'} than expected at ${counted(looks, 'look')} since ${dayInWords(since)}.`;
