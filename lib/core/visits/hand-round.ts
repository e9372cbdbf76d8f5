import { addDays, wallClock, type LocalDate } from '../calendar';
import { isFree, type FreeSlotQuestion } from './free-slots';
import { USUAL_KITCHEN_HOURS, windowsOn, type Span } from './service-hours';

/** A visit that has to go to somebody else, or to another time. */
export type VisitToHand = Span & {
  id: string;
  kitchenId: string;
  kitchen: FreeSlotQuestion['kitchen'];
  needs: readonly string[];
  /** Agreed to the minute: only who comes may change. */
  fixed: boolean;
  emergency: boolean;
};

export type HandQuestion = {
  visits: readonly VisitToHand[];
  /** Everybody who could come, the absent one too, with the days away among the days off. */
  technicians: readonly (Omit<FreeSlotQuestion['technicians'][number], 'busy'> & { skills: readonly string[] })[];
  /** Visits that stay where they are. */
  held: readonly (Span & { technicianId: string; kitchenId: string })[];
  shopTimeZone: string;
  /** Epoch ms: nobody is sent before it. */
  notBefore: number;
  daysAhead: number;
  /** Minutes on the road between two kitchens. */
  drive: (fromKitchenId: string, toKitchenId: string) => number;
};

export type Handed =
  | (Span & { visitId: string; technicianId: string; changes: 'who' | 'time' | 'day' })
  | { visitId: string; why: 'skill' | 'fixed' | 'full' };

const STEP = 15 * 60_000;

/**
 * Hands visits round, each to the nearest time at which somebody able is free: at its own time if that can be, else on
 * its day, else on the first day after. What cannot wait is placed first, then what was promised to the minute, then in
 * order of time; what is placed holds its time against the next.
 */
export function handRound(q: HandQuestion): Handed[] {
  const held = [...q.held];
  const order = [...q.visits].sort(
    (a, b) => Number(b.emergency) - Number(a.emergency) || Number(b.fixed) - Number(a.fixed) || a.start - b.start,
  );
  const out = order.map((visit): Handed => {
    const able = q.technicians.filter((t) => visit.needs.every((n) => t.skills.includes(n)));
    if (able.length === 0) return { visitId: visit.id, why: 'skill' };
    const best = nearest(visit, able, held, q);
    if (!best) return { visitId: visit.id, why: visit.fixed ? 'fixed' : 'full' };
    held.push({ ...best, kitchenId: visit.kitchenId });
    const day = (ms: number) => wallClock(visit.kitchen.timeZone, ms).date;
    const changes = best.start === visit.start ? 'who' : day(best.start) === day(visit.start) ? 'time' : 'day';
    return { visitId: visit.id, ...best, changes };
  });
  return out.sort((a, b) => startOf(a.visitId) - startOf(b.visitId));

  function startOf(id: string): number {
    return q.visits.find((v) => v.id === id)?.start ?? 0;
  }
}

function nearest(visit: VisitToHand, able: HandQuestion['technicians'], held: HandQuestion['held'], q: HandQuestion) {
  const free = (start: number) => {
    if (start < q.notBefore) return null;
    const span = { start, end: start + (visit.end - visit.start) };
    const who = able.find((t) =>
      isFree(
        {
          ...t,
          busy: held.filter((h) => h.technicianId === t.id).map((h) => ({ ...h, driveMinutes: q.drive(h.kitchenId, visit.kitchenId) })),
        },
        span,
        q.shopTimeZone,
      ),
    );
    return who ? { ...span, technicianId: who.id } : null;
  };
  // Its own time was agreed, inside the kitchen's hours or not.
  const own = free(visit.start);
  if (own || visit.fixed) return own;
  const { timeZone, blackouts } = visit.kitchen;
  const hours = visit.kitchen.serviceHours.length > 0 ? visit.kitchen.serviceHours : USUAL_KITCHEN_HOURS;
  const first = wallClock(timeZone, Math.max(visit.start, q.notBefore)).date;
  const closed = (d: LocalDate) => blackouts.some((b) => b.startsOn <= d && d < b.endsOn);
  for (let d = 0; d <= q.daysAhead; d++) {
    const date = addDays(first, d);
    if (closed(date)) continue;
    const starts = windowsOn(hours, date, timeZone)
      .flatMap((w) => {
        const at: number[] = [];
        for (let t = w.start; t + (visit.end - visit.start) <= w.end; t += STEP) at.push(t);
        return at;
      })
      .sort((a, b) => timeOff(a) - timeOff(b) || a - b);
    for (const start of starts) {
      const found = free(start);
      if (found) return found;
    }
  }
  return null;

  /** How far a time of day is from the one that was agreed. */
  function timeOff(t: number): number {
    return Math.abs(wallClock(timeZone, t).minutes - wallClock(timeZone, visit.start).minutes);
  }
}
