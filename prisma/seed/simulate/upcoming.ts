import { addDays, toDay, weekdayOf } from '../../../lib/core/calendar';
import { firstDue, hold, plan, type Booking } from './dispatch';
import { writeVisit } from './perform';
import type { Technician, World } from './world';
import { NOT_REACHED_DAYS } from './stories';

/** How far ahead the desk pulls work forward to fill a day. */
const PULLED_FORWARD_DAYS = 45;

/** Books today and the working days to the end of next week, so that every technician has a round. */
export function bookAhead(world: World, pending: readonly Booking[]): void {
  const taken = new Set<string>();
  const note = (b: Booking) => {
    for (const u of b.units) for (const t of u.tasks) taken.add(t.id as string);
    writeVisit(world, b, 'booked');
  };
  pending.forEach(note);
  const fill = (technician: Technician, day: number, wanted: number) => {
    const date = addDays(world.today, day);
    let has = (technician.busy.get(date) ?? []).length;
    const byNeed = [...world.kitchens]
      .filter((k) => NOT_REACHED_DAYS[k.place.seed.name] === undefined)
      .sort((a, b) => firstDue(a, taken) - firstDue(b, taken));
    for (const kitchen of byNeed) {
      if (has >= wanted) return;
      if (firstDue(kitchen, taken) > toDay(date) + PULLED_FORWARD_DAYS) return;
      if (pending.some((b) => b.kitchen === kitchen && Math.abs(toDay(b.date) - toDay(date)) < 4)) continue;
      const booking = plan(kitchen, technician, date, PULLED_FORWARD_DAYS, taken);
      if (!booking || booking.units.length < 2) continue;
      booking.units = booking.units.slice(0, 4);
      hold(booking);
      note(booking);
      has++;
    }
  };
  // Today is filled even on a weekend: some kitchens are then at home, and a round is there to be walked.
  for (const technician of world.technicians) fill(technician, 0, 2);
  const lastDay = 13 - weekdayOf(world.today);
  for (let day = 1; day <= lastDay; day++) {
    if (weekdayOf(addDays(world.today, day)) > 4) continue;
    for (const technician of world.technicians) if (world.random.chance(0.55)) fill(technician, day, 1);
  }
}
