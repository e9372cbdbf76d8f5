import type { WeeklyWindow } from '@/lib/core/booking/service-hours';

const NAMES = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** "Mon, Tue: 08:00–11:00", one line for each set of hours. */
export function hoursWords(windows: readonly WeeklyWindow[]): string[] {
  if (windows.length === 0) return ['Any time: no hours on file.'];
  const byDay = new Map<string, number[]>();
  for (let d = 0; d < 7; d++) {
    const text = windows.filter((w) => w.weekday === d).map((w) => `${w.from}–${w.to}`).join(', ') || 'closed to us';
    byDay.set(text, [...(byDay.get(text) ?? []), d]);
  }
  return [...byDay].map(([text, days]) => `${days.map((d) => NAMES[d]).join(', ')}: ${text}`);
}
