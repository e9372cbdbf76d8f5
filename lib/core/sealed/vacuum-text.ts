import type { VacuumReading } from './vacuum-decay';

/**
 * Readings from pasted text: a line each with minutes and microns ("3, 280", "3 min 280 µm", "00:03 280"), or microns alone,
 * one a minute. Lines without a number are passed over; `odd` are those that could not be read.
 */
export function readVacuumText(text: string): { readings: VacuumReading[]; odd: string[] } {
  const odd: string[] = [];
  const found: Read[] = [];
  for (const line of text.split(/\r?\n/)) {
    const read = readLine(line);
    if (read === 'odd') odd.push(line.trim());
    else if (read) found.push(read);
  }
  const first = found.find((f) => f.minutes !== null)?.minutes ?? 0;
  const timed = found.map((f, i) => ({ minutes: f.minutes === null ? i : f.minutes - first, microns: f.microns }));
  const readings: VacuumReading[] = [];
  for (const r of timed) {
    const before = readings.at(-1);
    if (before && !(r.minutes > before.minutes)) odd.push(`${r.minutes} min, ${r.microns}`);
    else readings.push(r);
  }
  return { readings, odd };
}

/** `minutes` null where the line gives microns alone. */
type Read = { minutes: number | null; microns: number };

/** Null for a line without a number. */
function readLine(line: string): Read | 'odd' | null {
  const clock = /(\d{1,3}):(\d{2})(?::(\d{2}))?/.exec(line);
  const rest = clock ? line.replace(clock[0], ' ') : line;
  // A comma between digits parts thousands; between blanks it parts columns.
  const numbers = [...rest.matchAll(/\d+(?:,\d{3})*(?:\.\d+)?/g)].map((m) => Number(m[0].replaceAll(',', '')));
  if (numbers.length === 0 && !clock) return null;
  const microns = numbers.at(-1) ?? 0;
  if (!(microns > 0) || numbers.length > 2) return 'odd';
  return { minutes: clock ? minutesOf(clock) : numbers.length > 1 ? (numbers[0] ?? null) : null, microns };
}

/** "12:04" is minutes and seconds or hours and minutes: either way the first reading is nought, and steps of the last are what count. */
function minutesOf([, a = '0', b = '0', c]: RegExpExecArray): number {
  return c === undefined ? Number(a) * 60 + Number(b) : Number(a) * 60 + Number(b) + Number(c) / 60;
}
