import type { WeeklyWindow } from '../visits/service-hours';
import type { Weekday } from '../calendar';
import { DAY_SHORT, readDayHours, writeDayHours } from './day-hours';

const DAYS: readonly Weekday[] = [0, 1, 2, 3, 4, 5, 6];

function dayOf(text: string): Weekday | null {
  const at = DAY_SHORT.findIndex((d) => text.trim().slice(0, 3).toLowerCase() === d.toLowerCase());
  return /^[a-z]+$/i.test(text.trim()) ? (DAYS[at] ?? null) : null;
}

/** Weekdays named by "Mon", "Mon-Fri", "Sat, Sun", "Fri-Mon" or "daily"; null when not understood. */
function daysNamed(text: string): Weekday[] | null {
  const source = text.trim();
  if (/^(daily|every ?day)$/i.test(source)) return [...DAYS];
  const out = new Set<Weekday>();
  for (const piece of source.split(',')) {
    const [first, last, extra] = piece.split(/[-–—]/);
    const from = dayOf(first ?? '');
    const to = last === undefined ? from : dayOf(last);
    if (from === null || to === null || extra !== undefined) return null;
    for (let d = from; ; d = DAYS[(d + 1) % 7] ?? 0) {
      out.add(d);
      if (d === to) break;
    }
  }
  return DAYS.filter((d) => out.has(d));
}

/** Reads "Mon-Fri 06:00-10:30, 14:00-16:00; Sat 07:00-09:00". Empty means no hours on file: any time will do. */
export function readWeekHours(text: string): { windows: WeeklyWindow[] } | { problem: string } {
  const byDay = new Map<Weekday, WeeklyWindow[]>();
  for (const part of text.split(/[;|\n]/)) {
    if (part.trim() === '') continue;
    const m = /^\s*([a-z][a-z ,–—-]*?)[\s:]+((?:\d|all|24|any|closed|none).*)$/i.exec(part);
    const days = m ? daysNamed(m[1] ?? '') : null;
    if (!m || !days) return { problem: `“${part.trim()}” is not understood. Write it like Mon-Fri 06:00-10:30; Sat 07:00-09:00.` };
    const read = readDayHours(m[2] ?? '');
    if ('problem' in read) return read;
    for (const weekday of days) {
      if (byDay.has(weekday)) return { problem: `${DAY_SHORT[weekday]} is given twice. Put its hours together, with a comma between.` };
      byDay.set(
        weekday,
        read.windows.map((w) => ({ weekday, ...w })),
      );
    }
  }
  return { windows: DAYS.flatMap((d) => byDay.get(d) ?? []) };
}

/** The shortest text that `readWeekHours` reads back to the same hours. */
export function writeWeekHours(hours: readonly WeeklyWindow[]): string {
  const parts: string[] = [];
  for (let d = 0; d < 7;) {
    const text = writeDayHours(hours, d as Weekday);
    let last = d;
    while (last < 6 && writeDayHours(hours, (last + 1) as Weekday) === text) last++;
    if (text) parts.push(`${last === d ? DAY_SHORT[d] : `${DAY_SHORT[d]}-${DAY_SHORT[last]}`} ${text}`);
    d = last + 1;
  }
  return parts.join('; ');
}
