import { daysBetween, type LocalDate } from '../calendar';
import { gradeIndex, type Grade } from '../findings/grades';

/** A day at a coil: what was found, before anybody touched it, and whether it was cleaned then. */
export type CoilDay = { on: LocalDate; found: Grade | null; cleaned: boolean };

/**
 * How a coil fouled the last time against the time before: told from grades alone, so coarse. `days`: since it was clean.
 * `cant_say`: fewer than two looks after a cleaning, or looks that do not settle it (dirtier, but after a longer time).
 */
export type CoilTrend = { is: 'faster' | 'slower' | 'same' | 'clean'; days: [before: number, last: number] } | { is: 'cant_say' };

/** Times between cleanings that count as alike. */
const ALIKE = 1.15;
/** The same grade, and yet in a time so much shorter that a grade, coarse as it is, means faster. */
const MUCH = 1.6;

type Look = { days: number; rank: number };

function looks(history: readonly CoilDay[]): Look[] {
  const out: Look[] = [];
  let clean: LocalDate | null = null;
  for (const day of [...history].sort((a, b) => (a.on < b.on ? -1 : 1))) {
    if (day.found && clean && clean < day.on) out.push({ days: daysBetween(clean, day.on), rank: gradeIndex('coil', day.found) });
    if (day.cleaned) clean = day.on;
  }
  return out.filter((l) => l.rank >= 0);
}

export function coilTrend(history: readonly CoilDay[]): CoilTrend {
  const [before, last] = looks(history).slice(-2);
  if (!before || !last) return { is: 'cant_say' };
  const days: [number, number] = [before.days, last.days];
  const shorter = before.days / last.days;
  if (last.rank > before.rank) return shorter >= 1 / ALIKE ? { is: 'faster', days } : { is: 'cant_say' };
  if (last.rank < before.rank) return shorter <= ALIKE ? { is: 'slower', days } : { is: 'cant_say' };
  if (last.rank === 0) return { is: 'clean', days };
  if (shorter >= MUCH) return { is: 'faster', days };
  if (shorter <= 1 / MUCH) return { is: 'slower', days };
  return { is: 'same', days };
}
