import type { WeeklyWindow } from '../visits/service-hours';
import { WEEKDAY_NAMES, type Weekday } from '../calendar';
import { plainMarks } from '../wording/plain-text';

/** Minutes since midnight of "6", "6:30", "06.30", "0630", "6h30", "6am", "6a", "2:30 pm", "noon" or "24:00"; null when it is none of these. */
function clockMinutes(text: string): number | null {
  if (/^noon$/i.test(text.trim())) return 720;
  if (/^midnight$/i.test(text.trim())) return 1440;
  const m = /^(\d{1,2})(?:[:.h]?(\d{2})|h)?\s*(am?|pm?|a\.m\.?|p\.m\.?)?$/i.exec(text.trim());
  if (!m) return null;
  let hour = Number(m[1]);
  const minute = Number(m[2] ?? 0);
  const half = m[3] && (/^a/i.test(m[3]) ? 'am' : 'pm');
  if (half) {
    if (hour < 1 || hour > 12) return null;
    hour = (hour % 12) + (half === 'pm' ? 12 : 0);
  }
  const total = hour * 60 + minute;
  return minute > 59 || total > 1440 ? null : total;
}

/** Whether "7-3:30" can only mean half past three in the afternoon: no am or pm at the end, no clock of twenty-four hours. */
const isAfternoon = (from: string, to: string): boolean =>
  !/[ap]/i.test(to) && !/^\s*0/.test(to) && !/^\s*0\d[:.]/.test(from) && !/p/i.test(from);

const clock = (minutes: number) => `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;

const CLOSED = /^(closed|none|no|never|-|–)?$/i;

/** Between two spans of a day: a mark, a word, or the blank between two whole ones. */
const BETWEEN = /[,;&/+]|\band\b|(?<=[-–—]\s?\d{1,2}[:.]\d{2})\s+(?=\d{1,2}[:.]\d{2}\s?[-–—])/i;

/** Something in it tells the halves of the day apart: am, pm, noon, or an hour that only a clock of twenty-four has. */
const HALF_SAID = /\d\s*[ap]\b|[ap]\.?m\b|noon|midnight|(?<![:.h\d])(?:0\d|1[3-9]|2\d)/i;

/** Between the beginning and the end of a span. */
export const FROM_TO = String.raw`(?:[-–—−‒→]|\b(?:to|till?|until|thru|through)\b)`;
const SPAN_MARK = new RegExp(String.raw`\s*${FROM_TO}\s*`, 'i');

type Read = { windows: { from: string; to: string }[] } | { problem: string };

/**
 * Hours of one day as a person writes them: "6:00-10:30, 14-16:30", "7-3:30", "6-10, 2-4", "all day", or empty for none.
 * Windows come back in order; overlapping, empty and past-midnight ones are refused in words.
 */
export function readDayHours(text: string): Read {
  const source = plainMarks(text).trim();
  if (CLOSED.test(source)) return { windows: [] };
  if (/^(all day|24 ?h(ours)?|any ?time)$/i.test(source)) return { windows: [{ from: '00:00', to: '24:00' }] };
  const spans: Span[] = [];
  const halfSaid = HALF_SAID.test(source);
  for (const piece of source.split(BETWEEN)) {
    const span = readSpan(piece.trim());
    if ('problem' in span) return span;
    spans.push(halfSaid ? span : afterThat(span, spans.at(-1)));
  }
  spans.sort((a, b) => a.start - b.start);
  const clash = spans.find((s, i) => i > 0 && s.start < (spans[i - 1]?.end ?? 0));
  if (clash) return { problem: `The span from ${clock(clash.start)} overlaps the one before it. Join them.` };
  return { windows: spans.map((s) => ({ from: clock(s.start), to: clock(s.end) })) };
}

/** Minutes since midnight. */
type Span = { start: number; end: number };

function readSpan(piece: string): Span | { problem: string } {
  const [from = '', to = '', ...more] = piece.replace(/^from\s+/i, '').split(SPAN_MARK);
  const begin = clockMinutes(from);
  const written = clockMinutes(to);
  if (more.length > 0 || begin === null || written === null)
    return { problem: `“${piece}” is not a span of hours. Write it like 06:00-10:30, 6-10:30 or 6am-2pm.` };
  const start = sameHalf(from, begin, to, written);
  const evening = written + 720;
  // A beginning from one in the afternoon on is of a clock of twenty-four hours, and so is the end.
  const afternoon = written < start && start < 780 && isAfternoon(from, to) && evening > start && written <= 720;
  const end = afternoon ? evening : endsTheDay(from, start, to, written) ? 1440 : written;
  if (end === start) return { problem: `“${piece}” starts and ends at the same time.` };
  if (end < start) return { problem: `“${piece}” runs past midnight. End it at 24:00 and put the rest on the next day.` };
  return { start, end };
}

/** "6-10, 2-4" goes on in the afternoon, where nothing in it tells the halves of the day apart: nobody writes the night after the morning. */
function afterThat(span: Span, before: Span | undefined): Span {
  const evening = { start: span.start + 720, end: span.end + 720 };
  return before && span.end <= before.start && evening.end <= 1440 ? evening : span;
}

/** "5pm-12am" and "18:00-00:00" end with the day. "10-12am" may begin in the morning or at night, and is left to its writer. */
const endsTheDay = (from: string, start: number, to: string, end: number): boolean =>
  end === 0 && start > 0 && (/^0/.test(to) || /[apm]|noon/i.test(from) || start >= 780);

/** "2-4pm" begins in the afternoon too, as far as that leaves a span; "11-1pm" and "6-2pm" do not. A clock of two digits says it itself. */
function sameHalf(from: string, start: number, to: string, end: number): number {
  if (/[apm]|noon/i.test(from) || /^\s*0/.test(from)) return start;
  if (/a/i.test(to)) return start >= 720 && start < 780 ? start - 720 : start;
  return /\dp|\sp/i.test(to) && start < 720 && start + 720 < end ? start + 720 : start;
}

/** "06:00-10:30, 14:00-16:30" of one weekday; empty when the day has none. */
export function writeDayHours(hours: readonly WeeklyWindow[], weekday: Weekday): string {
  return hours
    .filter((w) => w.weekday === weekday)
    .sort((a, b) => a.from.localeCompare(b.from))
    .map((w) => `${w.from}-${w.to}`)
    .join(', ');
}

export const DAY_SHORT = WEEKDAY_NAMES.map((n) => n.slice(0, 3));
