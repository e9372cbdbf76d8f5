import { clockIn, todayIn, type LocalDate } from '../calendar';

/** Who has a visit, and when, as a form asks for it: in the kitchen's own time, the length in minutes. */
export type VisitSlot = { technicianId: string; date: LocalDate; from: string; minutes: string };

/** @param at epoch milliseconds, half-open */
export function slotOf(at: { technicianId: string; startsAt: number; endsAt: number }, timeZone: string): VisitSlot {
  return {
    technicianId: at.technicianId,
    date: todayIn(timeZone, at.startsAt),
    from: clockIn(timeZone, at.startsAt),
    minutes: String(Math.round((at.endsAt - at.startsAt) / 60_000)),
  };
}

type Visit = { status: 'booked' | 'started' | 'done' | 'cancelled'; startsAt: number; endsAt: number };

/** What the office may still do to a visit, as of `now` (epoch milliseconds). */
export function changesOpen({ status, startsAt, endsAt }: Visit, now: number) {
  const open = status === 'booked' || status === 'started';
  return {
    /** Its tasks, length, technician and time; else only read. */
    edit: status === 'booked',
    /** Under way only who has it changes. */
    give: status === 'started',
    cancel: open,
    /** Cancelled by a slip: as long as its time is not there yet. */
    restore: status === 'cancelled' && startsAt > now,
    /** Its time is not over, so the kitchen is written to when it is cancelled. */
    kitchenHears: open && endsAt > now,
  };
}
