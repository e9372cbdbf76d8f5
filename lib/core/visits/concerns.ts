import type { Skill } from '../people/skills';
import { wallClock, type LocalDate } from '../calendar';
import { insideWindows, type Span, type WeeklyWindow } from './service-hours';

export type DateRange = { startsOn: LocalDate; endsOn: LocalDate; reason: string };

export type BookingQuestion = {
  span: Span;
  kitchen: { timeZone: string; serviceHours: readonly WeeklyWindow[]; blackouts: readonly DateRange[] };
  technician: { name: string; skills: readonly Skill[]; shifts: readonly WeeklyWindow[]; timeOff: readonly DateRange[] };
  shopTimeZone: string;
  /** What the work asks of whoever does it: "flammable", "roof". */
  needs: readonly Skill[];
};

export const SKILL_WORDS: Record<Skill, string> = { flammable: 'flammable refrigerants', roof: 'roof work' };

const covers = (r: DateRange, d: LocalDate) => r.startsOn <= d && d < r.endsOn;

export type DayQuestion = {
  /** Epoch milliseconds. */
  start: number;
  kitchen: { timeZone: string; blackouts: readonly DateRange[] };
  technician: { name: string; timeOff: readonly DateRange[] };
  shopTimeZone: string;
};

/** Whether a visit stands on a day on which its kitchen is closed to us or its technician is off, in words; null where not. */
export function dayConcerns({ start, kitchen, technician, shopTimeZone }: DayQuestion): { closed: string | null; off: string | null } {
  const closed = kitchen.blackouts.find((b) => covers(b, wallClock(kitchen.timeZone, start).date));
  const away = technician.timeOff.find((t) => covers(t, wallClock(shopTimeZone, start).date));
  return {
    closed: closed ? `The kitchen is closed to us that day${closed.reason ? `: ${closed.reason}` : ''}.` : null,
    off: away ? `${technician.name} is off that day${away.reason ? `: ${away.reason}` : ''}.` : null,
  };
}

/**
 * What speaks against a booking, in words, worst first. Skills cannot be waved through; hours and days off can,
 * by someone who has phoned the kitchen.
 */
export function bookingConcerns(q: BookingQuestion): { message: string; refuses: boolean }[] {
  const out: { message: string; refuses: boolean }[] = [];
  const lacking = q.needs.filter((n) => !q.technician.skills.includes(n));
  for (const n of lacking) out.push({ message: `${q.technician.name} is not on file for ${SKILL_WORDS[n]}.`, refuses: true });

  const { closed, off } = dayConcerns({ ...q, start: q.span.start });
  if (closed) out.push({ message: closed, refuses: false });
  else if (!insideWindows(q.kitchen.serviceHours, q.span, q.kitchen.timeZone))
    out.push({ message: 'That is outside the hours in which the kitchen can spare its equipment.', refuses: false });

  if (off) out.push({ message: off, refuses: false });
  else if (q.technician.shifts.length === 0) out.push({ message: `${q.technician.name} has no shift on file.`, refuses: false });
  else if (!insideWindows(q.technician.shifts, q.span, q.shopTimeZone))
    out.push({ message: `That is outside ${q.technician.name}’s shift.`, refuses: false });
  return out;
}
