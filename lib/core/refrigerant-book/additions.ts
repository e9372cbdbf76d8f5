import type { LocalDate } from '../calendar';
import type { Addition } from './leak-rate';

export type UnitWeighing = { on: LocalDate; kg: number; way: 'charged' | 'recovered' };

/** Below this a day's net is the scale's own error, kg. */
const LEAST_KG = 0.005;

/**
 * What was added to a unit, day by day: charged less what was recovered on the same day and in the two weeks before it,
 * since what was taken out to open the circuit was not lost. Judgement: a charge recovered earlier than that is an addition of its own.
 * @param weighings kg into the cylinder: charged below zero
 */
export function additionsOf(weighings: readonly UnitWeighing[], daysBetween: (a: LocalDate, b: LocalDate) => number): Addition[] {
  const sorted = [...weighings].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : a.way === 'recovered' ? -1 : 1));
  let held: { on: LocalDate; kg: number }[] = [];
  const byDay = new Map<LocalDate, number>();
  for (const w of sorted) {
    if (w.way === 'recovered') {
      held.push({ on: w.on, kg: w.kg });
      continue;
    }
    let left = -w.kg;
    held = held.filter((h) => daysBetween(h.on, w.on) <= KEPT_DAYS);
    for (const h of held) {
      const back = Math.min(Math.max(h.kg, 0), Math.max(left, 0));
      h.kg -= back;
      left -= back;
    }
    byDay.set(w.on, (byDay.get(w.on) ?? 0) + left);
  }
  return [...byDay].filter(([, kg]) => kg > LEAST_KG).map(([on, kg]) => ({ on, kg }));
}

const KEPT_DAYS = 14;
