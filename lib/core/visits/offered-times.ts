import { wallClock } from '../calendar';
import type { FreeSlot } from './free-slots';

/** A free time with the minutes on the road that it adds to its technician's day. */
export type PricedSlot = FreeSlot & { detourMinutes: number };

const NOON = 12 * 60;

type Stop<P> = { technicianId: string; start: number; end: number; at: P };

/**
 * Minutes on the road that a stop adds to a day: there and on, less the way that it breaks. With nothing booked before
 * or after on that day the way from or to home is the day's own and counts as nothing.
 */
export function detourMinutes<P>(
  slot: FreeSlot,
  stops: readonly Stop<P>[],
  here: P,
  drive: (from: P, to: P) => number,
  timeZone: string,
): number {
  const day = wallClock(timeZone, slot.start).date;
  const ofDay = stops.filter((s) => s.technicianId === slot.technicianId && wallClock(timeZone, s.start).date === day);
  const before = ofDay.filter((s) => s.end <= slot.start).reduce<Stop<P> | null>((a, b) => (a && a.end >= b.end ? a : b), null);
  const after = ofDay.filter((s) => s.start >= slot.end).reduce<Stop<P> | null>((a, b) => (a && a.start <= b.start ? a : b), null);
  const there = before ? drive(before.at, here) : 0;
  const on = after ? drive(here, after.at) : 0;
  return Math.max(0, there + on - (before && after ? drive(before.at, after.at) : 0));
}

/** A few times over several days rather than one morning by the half hour: of each half day the one least out of the way. */
export function offeredTimes<S extends PricedSlot>(slots: readonly S[], timeZone: string, most: number): S[] {
  const best = new Map<string, S>();
  for (const slot of slots) {
    const { date, minutes } = wallClock(timeZone, slot.start);
    const half = `${date} ${minutes < NOON ? 'am' : 'pm'}`;
    const other = best.get(half);
    if (!other || slot.detourMinutes < other.detourMinutes) best.set(half, slot);
  }
  return [...best.values()].sort((a, b) => a.start - b.start).slice(0, most);
}
