import { addDays, fromDay, toDay, weekdayOf, type LocalDate } from '../../../lib/core/calendar';
import { bringsLowSide, TASK_KINDS } from '../../../lib/core/tasks';
import { travelMinutes } from '../../../lib/core/planning';
import { STORED_HOURS } from '../../../lib/database/stored/shop';
import { CITY } from '../shop/kitchens';
import { DEMO_TRAVEL } from '../shop/assemble';
import type { Prisma } from '../../../lib/database/generated/client';
import { NOT_REACHED_DAYS } from './stories';
import type { SimKitchen, SimUnit, Technician, World } from './world';

type Task = Prisma.TaskCreateManyInput;
export type Booking = {
  kitchen: SimKitchen;
  technician: Technician;
  date: LocalDate;
  from: string;
  minutes: number;
  units: { unit: SimUnit; tasks: Task[] }[];
};

const MINUTES: Record<string, number> = Object.fromEntries(TASK_KINDS.map((k) => [k.key, k.minutes]));
const LOW_SIDE = new Set(TASK_KINDS.filter((k) => k.lowSide).map((k) => k.key as string));
const clock = (m: number) => `${String(Math.floor(m / 60)).padStart(2, '0')}:${String(m % 60).padStart(2, '0')}`;
const minutesOf = (t: string) => Number(t.slice(0, 2)) * 60 + Number(t.slice(3));
const dueDay = (t: Task) => toDay((t.dueOn as Date).toISOString().slice(0, 10) as LocalDate);

/** Tasks of a unit for a visit: those due by then, and with a coil or on a recall the low side, as the desk books it. */
function tasksFor(unit: SimUnit, byDay: number, taken: ReadonlySet<string>): Task[] {
  const free = unit.tasks.filter((t) => !taken.has(t.id as string));
  const due = free.filter((t) => dueDay(t) <= byDay);
  const lowSide = due.some((t) => bringsLowSide(t.kindKey)) || (unit.recallDay !== null && unit.recallDay <= byDay);
  return free.filter((t) => due.includes(t) || (lowSide && LOW_SIDE.has(t.kindKey)));
}

/** Whether anything of this kitchen will be due soon, counted from `day`. */
export function firstDue(kitchen: SimKitchen, taken: ReadonlySet<string>): number {
  const due = kitchen.units
    .flatMap((u) => u.tasks)
    .filter((t) => !taken.has(t.id as string))
    .map(dueDay);
  return Math.min(...due, ...kitchen.units.map((u) => u.recallDay ?? Infinity));
}

/** The unit's roof or refrigerant asks for a skill the technician may lack. */
const mayDo = (technician: Technician, unit: SimUnit) => !unit.row.roofWork || (technician.row.skills as string[]).includes('roof');

/** Fits due work of a kitchen into one visit on a date, or null where no time is free. `ahead`: days of work pulled forward. */
export function plan(
  kitchen: SimKitchen,
  technician: Technician,
  date: LocalDate,
  ahead: number,
  taken: ReadonlySet<string>,
): Booking | null {
  const { seed } = kitchen.place;
  if (weekdayOf(date) === 6 && !seed.sundays) return null;
  const open = minutesOf(seed.hours[0]);
  const close = minutesOf(seed.hours[1]);
  const begins = Math.max(open, shiftOf(technician, date).from + driveBetween(homeOf(technician), seed));
  const byDay = toDay(date) + ahead;
  const wanted = kitchen.units
    .map((unit) => ({ unit, tasks: mayDo(technician, unit) ? tasksFor(unit, byDay, taken) : [] }))
    .filter((w) => w.tasks.length > 0)
    .sort((a, b) => Math.min(...a.tasks.map(dueDay)) - Math.min(...b.tasks.map(dueDay)));
  let minutes = 10;
  const units: Booking['units'] = [];
  for (const w of wanted) {
    const more = w.tasks.reduce((sum, t) => sum + (MINUTES[t.kindKey] ?? 10), 0);
    if (minutes + more > close - begins) continue;
    minutes += more;
    units.push(w);
  }
  if (units.length === 0) return null;
  minutes = Math.min(close - begins, Math.ceil(minutes / 5) * 5);
  const from = freeFrom(technician, date, begins, close, minutes, seed);
  if (from === null) return null;
  return { kitchen, technician, date, from: clock(from), minutes, units };
}

const CLEAR = 5;
const WHOLE_DAY = { from: 0, to: 24 * 60 };
type Point = { lat: number; lng: number };

/** Whole minutes of the way, as the planner of the shop reckons it, and a little for the door. */
const driveBetween = (a: Point, b: Point): number => (travelMinutes(a, b, DEMO_TRAVEL) ?? 0) + CLEAR;
const homeOf = ({ row }: Technician): Point =>
  typeof row.homeLat === 'number' && typeof row.homeLng === 'number' ? { lat: row.homeLat, lng: row.homeLng } : CITY;

function shiftOf(technician: Technician, date: LocalDate): { from: number; to: number } {
  const shift = STORED_HOURS.read(technician.row.shifts).find((w) => w.weekday === weekdayOf(date));
  return shift ? { from: minutesOf(shift.from), to: minutesOf(shift.to) } : WHOLE_DAY;
}

/** The first quarter of an hour from `begins` at which the technician can be there and get on to what comes after. */
function freeFrom(technician: Technician, date: LocalDate, begins: number, close: number, minutes: number, at: Point): number | null {
  const busy = technician.busy.get(date) ?? [];
  const last = Math.min(close, shiftOf(technician, date).to) - minutes;
  for (let from = Math.ceil(begins / 15) * 15; from <= last; from += 15)
    if (busy.every((b) => from + minutes + driveBetween(at, b.at) <= b.from || from >= b.to + driveBetween(b.at, at))) return from;
  return null;
}

export function hold(booking: Booking): void {
  const from = minutesOf(booking.from);
  const day = booking.technician.busy.get(booking.date) ?? [];
  booking.technician.busy.set(booking.date, [...day, { from, to: from + booking.minutes, at: booking.kitchen.place.seed }]);
}

/** The desk's morning: books each kitchen whose work comes due, some days ahead. */
export function bookDay(world: World, day: number, taken: ReadonlySet<string>): Booking[] {
  const made: Booking[] = [];
  for (const kitchen of world.kitchens) {
    if (kitchen.booked) continue;
    const notReached = NOT_REACHED_DAYS[kitchen.place.seed.name];
    if (notReached !== undefined && toDay(world.today) - day < notReached) continue;
    if (firstDue(kitchen, taken) > day + 4) continue;
    const date = addDays(fromDay(day), world.random.whole(1, 5));
    if (weekdayOf(date) > 4) continue;
    const booking = plan(kitchen, technicianFor(world, kitchen), date, 16, taken);
    if (!booking) continue;
    hold(booking);
    kitchen.booked = true;
    made.push(booking);
  }
  return made;
}

/** Its usual technician, now and then another; roof work goes to who may do it. */
function technicianFor(world: World, kitchen: SimKitchen): Technician {
  const roof = kitchen.units.some((u) => u.row.roofWork);
  const able = world.technicians.filter((t) => !roof || (t.row.skills as string[]).includes('roof'));
  const usual = able.includes(kitchen.technician) ? kitchen.technician : (able[0] as Technician);
  return world.random.chance(0.15) ? world.random.pick(able) : usual;
}
