/**
 * How long a visit stood at each unit, told from when things were written down there: one looks and works, then writes.
 * So what lies between two moments belongs to the unit of the later, and it is sure only where both are of one unit.
 */

/** When something was written down, epoch ms, and of which unit; null for the visit as a whole. */
export type Moment = { at: number; unitId: string | null };
/** Minutes, with the least and the most that the moments allow. */
export type TimeSpent = { minutes: number; lo: number; hi: number };

/** After so long without a word somebody was elsewhere: minutes. Judgement. */
const MOST_GAP = 150;

/** By unit. Moments before the arrival or after the leaving count as at it; with no arrival, from the first moment. */
export function timeOnUnits(moments: readonly Moment[], arrivedAt: number | null, leftAt: number | null): Map<string, TimeSpent> {
  const inOrder = [...moments].sort((a, b) => a.at - b.at);
  const within = (at: number) => Math.min(Math.max(at, arrivedAt ?? at), leftAt ?? at);
  const spent = new Map<string, TimeSpent>();
  const add = (unitId: string | null, change: TimeSpent) => {
    if (unitId === null) return;
    const t = spent.get(unitId) ?? { minutes: 0, lo: 0, hi: 0 };
    spent.set(unitId, { minutes: t.minutes + change.minutes, lo: t.lo + change.lo, hi: t.hi + change.hi });
  };
  let before: Moment | null = arrivedAt === null ? null : { at: arrivedAt, unitId: null };
  for (const here of inOrder) {
    const gap = before === null ? 0 : (within(here.at) - within(before.at)) / 60_000;
    if (gap <= MOST_GAP) {
      const same = before?.unitId === here.unitId;
      add(here.unitId, { minutes: gap, lo: same ? gap : 0, hi: gap });
      // One may have stayed at the unit before, after the last word on it.
      if (before && !same) add(before.unitId, { minutes: 0, lo: 0, hi: gap });
    }
    before = here;
  }
  if (before && leftAt !== null) add(before.unitId, { minutes: 0, lo: 0, hi: Math.min(MOST_GAP, (leftAt - within(before.at)) / 60_000) });
  return spent;
}

export const addTimes = (times: readonly TimeSpent[]): TimeSpent =>
  times.reduce((a, b) => ({ minutes: a.minutes + b.minutes, lo: a.lo + b.lo, hi: a.hi + b.hi }), { minutes: 0, lo: 0, hi: 0 });

const hm = (minutes: number): string => {
  const m = Math.round(minutes / 5) * 5;
  return m < 60 ? `${m} min` : `${Math.floor(m / 60)} h${m % 60 === 0 ? '' : ` ${m % 60} min`}`;
};

/** "about 40 min (25 min to 1 h)": to five minutes, as surely as the moments tell it. */
export function timeWords({ minutes, lo, hi }: TimeSpent): string {
  const [least, most] = [hm(lo), hm(hi)];
  if (hm(minutes) === hm(0)) return most === hm(0) ? 'a few minutes' : `up to ${most}`;
  return least === most ? `about ${hm(minutes)}` : `about ${hm(minutes)} (${least} to ${most})`;
}
