/** Times as a kitchen's clock shows them. */

const KINDS = {
  time: { hour: '2-digit', minute: '2-digit' },
  day: { weekday: 'short', day: 'numeric', month: 'short' },
} as const satisfies Record<string, Intl.DateTimeFormatOptions>;

/** Making one takes longer than a screen of them does to write. */
const made = new Map<string, Intl.DateTimeFormat>();
function formatter(kind: keyof typeof KINDS, timeZone: string): Intl.DateTimeFormat {
  const key = `${kind} ${timeZone}`;
  let known = made.get(key);
  if (!known) made.set(key, (known = new Intl.DateTimeFormat('en-GB', { timeZone, ...KINDS[kind] })));
  return known;
}

export const timeIn = (ms: number, timeZone: string): string => formatter('time', timeZone).format(ms);

export const dayIn = (ms: number, timeZone: string): string => formatter('day', timeZone).format(ms);

/** "Tue 3 Nov" of a plain date. */
export const dayWords = (date: string): string => dayIn(Date.parse(`${date}T00:00:00Z`), 'UTC');

// A clock whose lead over UTC is known needs no calendar from the browser: waking that takes longer than drawing a screen.

/** The same from the minutes that the kitchen's clock is ahead of UTC. */
export const timeAt = (ms: number, utcOffsetMinutes: number): string =>
  new Date(ms + utcOffsetMinutes * 60_000).toISOString().slice(11, 16);

export function dayAt(ms: number, utcOffsetMinutes: number): string {
  const [weekday, day, month] = new Date(ms + utcOffsetMinutes * 60_000).toUTCString().split(/,? /);
  return `${weekday} ${Number(day)} ${month}`;
}
