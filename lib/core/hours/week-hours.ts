import type { WeeklyWindow } from '../visits/service-hours';
import type { Weekday } from '../calendar';
import { plainMarks } from '../wording/plain-text';
import { DAY_SHORT, readDayHours, writeDayHours } from './day-hours';

const DAYS: readonly Weekday[] = [0, 1, 2, 3, 4, 5, 6];

function dayOf(text: string): Weekday | null {
  const word = text.trim().toLowerCase();
  const at = DAY_SHORT.findIndex((d) => word.slice(0, 3) === d.toLowerCase());
  return /^[a-z]+\.?$/.test(word) ? (DAYS[at] ?? null) : null;
}

/** Days by the words and letters that people have for several. */
const SEVERAL: readonly (readonly [RegExp, string])[] = [
  [/^(daily|every ?day|7 days( a week)?|all (days|week))$/i, 'Mon-Sun'],
  [/^(week ?days?|m ?[-–—] ?f)$/i, 'Mon-Fri'],
  [/^week ?ends?$/i, 'Sat-Sun'],
  [/^m ?[-–—] ?s(at)?$/i, 'Mon-Sat'],
];

/** Weekdays named by "Mon", "Mon-Fri", "Mon to Fri", "Sat, Sun", "M-F", "weekdays" or "daily"; null when not understood. */
export function daysNamed(text: string): Weekday[] | null {
  const source = text.trim();
  const named = SEVERAL.find(([form]) => form.test(source))?.[1] ?? source;
  const out = new Set<Weekday>();
  for (const piece of named.split(/[,&/+]|\band\b/i)) {
    const [first, last, extra] = piece.split(/[-–—]|\b(?:to|thru|through|until)\b/i);
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

const PART = /^\s*([a-z][a-z ,.&/+–—-]*?|7 days(?: a week)?)[\s:]+((?:\d|all day|24|any|noon|from|closed|none).*)$/i;

/**
 * Reads "Mon-Fri 06:00-10:30, 14:00-16:00; Sat 07:00-09:00". Hours without a day, "06:00-10:30", are those of every day. Empty means
 * no hours on file: any time will do.
 */
export function readWeekHours(text: string): { windows: WeeklyWindow[] } | { problem: string } {
  const parts = plainMarks(text).split(/[;|\n]/).filter((part) => part.trim() !== ''); // prettier-ignore
  if (parts.length > 0 && parts.every((part) => !PART.test(part))) return everyDay(parts);
  const byDay = new Map<Weekday, WeeklyWindow[]>();
  for (const part of parts) {
    const [, named = '', hours = ''] = PART.exec(part) ?? [];
    const days = daysNamed(named);
    if (!days) return { problem: notUnderstood(part) };
    const read = readDayHours(hours);
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

function everyDay(parts: readonly string[]): { windows: WeeklyWindow[] } | { problem: string } {
  const read = readDayHours(parts.join(','));
  const [first = ''] = parts;
  // Where a number begins it the hours are at fault, else the days.
  if ('problem' in read) return /^\s*\d/.test(first) ? read : { problem: notUnderstood(first) };
  if (read.windows.length === 0) return { problem: notUnderstood(first) };
  return { windows: DAYS.flatMap((weekday) => read.windows.map((w) => ({ weekday, ...w }))) };
}

const notUnderstood = (part: string) =>
  `“${part.trim()}” is not understood. Write it like Mon-Fri 06:00-10:30; Sat 07:00-09:00, or 06:00-10:30 for every day.`;

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

/**
 * Hours of a week as a form asks for them, a line for each day from Monday on. Whoever writes the days as well, "Mon-Fri 6-10" in
 * Monday's line, fills the lines of those days that stand empty; `at` is the line that a problem stands in.
 */
export function readDayLines(lines: readonly string[]): { windows: WeeklyWindow[] } | { problems: { at: Weekday; problem: string }[] } {
  const problems: { at: Weekday; problem: string }[] = [];
  const byDay = new Map<Weekday, WeeklyWindow[]>();
  const of = (weekday: Weekday) => (lines[weekday] ?? '').trim();
  for (const at of DAYS) {
    const read = readDayHours(of(at));
    const named = 'problem' in read ? namedDays(of(at)) : null;
    if ('windows' in read) byDay.set(at, [...(byDay.get(at) ?? []), ...read.windows.map((w) => ({ weekday: at, ...w }))]);
    else if (!named) problems.push({ at, problem: read.problem });
    else {
      const taken = named.find(({ weekday }) => weekday !== at && of(weekday) !== '');
      if (!named.some(({ weekday }) => weekday === at))
        problems.push({ at, problem: `This is ${DAY_SHORT[at]}’s line. Write its hours alone, like 6-10.` }); // prettier-ignore
      else if (taken)
        problems.push({ at, problem: `${DAY_SHORT[taken.weekday]}’s own line is filled in too. Write ${DAY_SHORT[at]}’s alone here, like 6-10.` }); // prettier-ignore
      else for (const w of named) byDay.set(w.weekday, [...(byDay.get(w.weekday) ?? []), w]);
    }
  }
  return problems.length > 0 ? { problems } : { windows: DAYS.flatMap((d) => byDay.get(d) ?? []) };
}

/** Hours that name their days; null where they cannot be read, or none is named. */
function namedDays(line: string): WeeklyWindow[] | null {
  const read = PART.test(plainMarks(line)) ? readWeekHours(line) : null;
  return read && 'windows' in read && read.windows.length > 0 ? read.windows : null;
}
