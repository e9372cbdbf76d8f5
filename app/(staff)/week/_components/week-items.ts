import type { LocalDate } from '@/lib/core/calendar';
import { spanIn } from '@/lib/core/calendar/when';
import { boardRows } from '@/lib/core/visits/board-rows';
import { dayConcerns, type DateRange } from '@/lib/core/visits/concerns';
import type { WeeklyWindow } from '@/lib/core/visits/service-hours';
import { dayMinutes, spansOn, withinHours } from '@/lib/core/visits/time-grid';
import type { GridVisit } from './grid-item';
import type { WeekVisit } from './sent-week';
import type { GridRow } from './time-grid';

type Visit = {
  id: string;
  version: number;
  status: 'booked' | 'started' | 'done' | 'cancelled';
  technicianId: string;
  technician: string;
  timeOff: DateRange[];
  blackouts: DateRange[];
  startsAt: number;
  endsAt: number;
  fixed: boolean;
  emergency: boolean;
  customerReply: string | null;
  kitchen: string;
  customer: string;
  timeZone: string;
  serviceHours: readonly WeeklyWindow[];
  tasks: number;
  units: number;
};

/** Visits as the picture of the week draws them; `zone` is the picture's clock. */
export function weekItems(visits: readonly Visit[], drives: ReadonlyMap<string, number | null>, zone: string): WeekVisit[] {
  return visits.map((v) => ({
    key: v.id,
    technicianId: v.technicianId,
    ...dayMinutes(v.startsAt, v.endsAt, zone),
    driveMinutes: drives.get(v.id) ?? null,
    time: spanIn(v.startsAt, v.endsAt, v.timeZone),
    customer: v.customer,
    kitchen: v.kitchen,
    units: v.units,
    tasks: v.tasks,
    timeZone: v.timeZone,
    version: v.status === 'booked' ? v.version : null,
    marks: [...marksOf(v, zone), ...shortOf(v, visits, drives.get(v.id) ?? null)],
  }));
}

/** Too little time between the visit before and this one for the drive. */
function shortOf(v: Visit, all: readonly Visit[], driveMinutes: number | null): GridVisit['marks'] {
  if (v.status !== 'booked' || driveMinutes === null) return [];
  const before = all.filter((o) => o.technicianId === v.technicianId && o.status !== 'cancelled' && o.startsAt < v.startsAt);
  const short = Math.ceil(driveMinutes - (v.startsAt - Math.max(...before.map((o) => o.endsAt))) / 60_000);
  return short > 0 ? [{ shape: 'late', tone: 'alarm', label: `${short} min short for the drive` }] : [];
}

/** What is to be known of a visit, worst first: each a word with a shape. */
function marksOf(v: Visit, shopTimeZone: string): GridVisit['marks'] {
  const marks: GridVisit['marks'] = [];
  if (v.emergency) marks.push({ shape: 'late', tone: 'alarm', label: 'Emergency' });
  if (v.status === 'booked') {
    const technician = { name: v.technician, timeOff: v.timeOff };
    const { closed, off } = dayConcerns({ start: v.startsAt, kitchen: v, technician, shopTimeZone });
    for (const label of [closed, off]) if (label) marks.push({ shape: 'off', tone: 'alarm', label: label.replace(/\.$/, '') });
    if (!withinHours(v.serviceHours, v.startsAt, v.endsAt, v.timeZone))
      marks.push({ shape: 'off', tone: 'alarm', label: 'Outside their hours' });
  }
  if (v.customerReply === 'other_time') marks.push({ shape: 'ask', tone: 'alarm', label: 'Asks to move' });
  if (v.status === 'started') marks.push({ shape: 'now', tone: 'cold', label: 'Under way' });
  if (v.status === 'done') marks.push({ shape: 'done', tone: 'soft', label: 'Done' });
  if (v.fixed) marks.push({ shape: 'held', tone: 'soft', label: 'Fixed' });
  if (v.customerReply === 'confirmed') marks.push({ shape: 'done', tone: 'soft', label: 'Confirmed' });
  return marks;
}

type Technician = { id: string; name: string; shifts: readonly WeeklyWindow[]; timeOff: readonly DateRange[] };

/** A line a technician, with the hours at work and the days off of each day; who has a visit and does none any more comes last. */
export function gridRows(
  technicians: readonly Technician[],
  visits: readonly { technicianId: string; technician: string }[],
  days: readonly LocalDate[],
): GridRow[] {
  return boardRows(technicians, visits).map((row) => {
    const of = technicians.find((t) => t.id === row.id);
    return {
      ...row,
      days: days.map((d) => {
        const off = of?.timeOff.find((r) => r.startsOn <= d && d < r.endsOn);
        return { shifts: of && !off ? spansOn(of.shifts, d) : [], off: off ? `Off${off.reason ? `: ${off.reason}` : ''}` : null };
      }),
    };
  });
}
