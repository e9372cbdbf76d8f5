import 'server-only';

/** "Tuesday 24 November, 09:00, is past", by the kitchen's clock; null for a time still to come. */
export function pastWords(start: number, timeZone: string, now: Date): string | null {
  if (start >= now.getTime()) return null;
  const day = new Intl.DateTimeFormat('en-GB', { timeZone, weekday: 'long', day: 'numeric', month: 'long' }).format(start);
  const time = new Intl.DateTimeFormat('en-GB', { timeZone, hour: '2-digit', minute: '2-digit' }).format(start);
  return `${day}, ${time}, is past`;
}
