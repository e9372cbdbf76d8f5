/**
 * How the shop writes dates, times and money: the one place that the rooms which write them ask (`calendar/when`, `measures/figures`).
 *
 * It is a property of the process, as the zone of a machine is, and not an argument: one process serves one shop, a browser or a
 * tablet shows one, and some two hundred places would hand it on only to pass it down. Whoever starts says it: the server
 * when it starts and whenever the shop saves it, the frame of the office's pages, the tablet when it reads what it holds.
 */
export const DATE_HABITS = ['day_first', 'month_first'] as const;
export type DateHabit = (typeof DATE_HABITS)[number];
export const DATE_HABIT_LABEL: Record<DateHabit, string> = {
  day_first: 'Tue 3 Nov 2026, 14:30',
  month_first: 'Tue, Nov 3, 2026, 2:30 PM',
};

/** `dates`: on the office's pages and the tablet. `english`: what customers who read English are used to, and money (BCP 47). */
export type Habits = { dates: DateHabit; english: string; paper: PaperSize };
export type PaperSize = 'LETTER' | 'A4';

declare global {
  // Not of this module: the server keeps several copies of a module, for pages and for what runs in the browser too.
  var rimebookHabits: Habits | undefined;
}

const USUAL: Habits = { dates: 'day_first', english: 'en-US', paper: 'LETTER' };

export const habits = (): Habits => globalThis.rimebookHabits ?? USUAL;

export const followHabits = (of: Partial<Habits>): void => {
  globalThis.rimebookHabits = { ...habits(), ...of };
};
