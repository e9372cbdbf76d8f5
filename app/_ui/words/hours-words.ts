import { clockWords, hoursSpan } from '@/lib/core/calendar/when';
import { USUAL_KITCHEN_HOURS, type WeeklyWindow } from '@/lib/core/visits/service-hours';

const NAMES = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** [0, 1, 2, 4] → "Mon–Wed, Fri". */
function daysWords(days: readonly number[]): string {
  const runs: number[][] = [];
  for (const d of days) {
    const run = runs.at(-1);
    if (run?.at(-1) === d - 1) run.push(d);
    else runs.push([d]);
  }
  return runs
    .map((r) => (r.length > 2 ? `${NAMES[r[0] as number]}–${NAMES[r.at(-1) as number]}` : r.map((d) => NAMES[d]).join(', ')))
    .join(', ');
}

/** Who books by hand may come at any time; plans keep to the usual hours. */
const usualWords = (): string[] => {
  const [day] = USUAL_KITCHEN_HOURS;
  return ['No hours on file.', ...(day ? [`Planned between ${clockWords(day.from)} and ${clockWords(day.to)}.`] : [])];
};

/** "Mon–Sat: 08:00–11:00", one line for each set of hours. */
export function hoursWords(windows: readonly WeeklyWindow[]): string[] {
  if (windows.length === 0) return usualWords();
  const byDay = new Map<string, number[]>();
  for (let d = 0; d < 7; d++) {
    const text =
      windows
        .filter((w) => w.weekday === d)
        .map((w) => hoursSpan(w.from, w.to))
        .join(', ') || 'closed to us';
    byDay.set(text, [...(byDay.get(text) ?? []), d]);
  }
  return [...byDay].map(([text, days]) => `${daysWords(days)}: ${text}`);
}
