import { addDays, wallClock, type LocalDate } from '../calendar';
import { USUAL_KITCHEN_HOURS, windowsOn, type Span, type WeeklyWindow } from './service-hours';
import type { DateRange } from './concerns';

export type FreeSlotQuestion = {
  /** First and last date offered, in the kitchen's zone, half-open. */
  from: LocalDate;
  until: LocalDate;
  /** No slot starts before this instant (epoch ms). */
  notBefore: number;
  minutes: number;
  stepMinutes: number;
  kitchen: { timeZone: string; serviceHours: readonly WeeklyWindow[]; blackouts: readonly DateRange[] };
  shopTimeZone: string;
  technicians: readonly {
    id: string;
    shifts: readonly WeeklyWindow[];
    timeOff: readonly DateRange[];
    /** What already holds the technician, with the drive to and from this kitchen in minutes. */
    busy: readonly (Span & { driveMinutes: number })[];
  }[];
  limit: number;
};

export type FreeSlot = Span & { technicianId: string };

const MINUTE = 60_000;
const covers = (r: DateRange, d: LocalDate) => r.startsOn <= d && d < r.endsOn;

/**
 * Times at which the kitchen can spare its equipment and someone is free, drive included; earliest first, one
 * technician a time. Kitchens without hours on file are offered the usual ones; technicians without a shift are not offered.
 */
export function freeSlots(q: FreeSlotQuestion): FreeSlot[] {
  const out: FreeSlot[] = [];
  for (let date = q.from; date < q.until && out.length < q.limit; date = addDays(date, 1)) {
    if (q.kitchen.blackouts.some((b) => covers(b, date))) continue;
    for (const window of windowsOn(hours(q.kitchen.serviceHours), date, q.kitchen.timeZone)) {
      for (let start = window.start; start + q.minutes * MINUTE <= window.end; start += q.stepMinutes * MINUTE) {
        if (start < q.notBefore || out.length >= q.limit) continue;
        const span = { start, end: start + q.minutes * MINUTE };
        const who = q.technicians.find((t) => isFree(t, span, q.shopTimeZone));
        if (who) out.push({ ...span, technicianId: who.id });
      }
    }
  }
  return out;
}

/** Whether somebody is at work and free for a span, the drives to and from it counted in. */
export function isFree(t: FreeSlotQuestion['technicians'][number], span: Span, shopTimeZone: string): boolean {
  const { date } = wallClock(shopTimeZone, span.start);
  if (t.timeOff.some((o) => covers(o, date))) return false;
  if (t.shifts.length === 0 || !windowsOn(t.shifts, date, shopTimeZone).some((w) => w.start <= span.start && span.end <= w.end))
    return false;
  return t.busy.every((b) => span.end + b.driveMinutes * MINUTE <= b.start || b.end + b.driveMinutes * MINUTE <= span.start);
}

const hours = (windows: readonly WeeklyWindow[]): readonly WeeklyWindow[] => (windows.length > 0 ? windows : USUAL_KITCHEN_HOURS);
