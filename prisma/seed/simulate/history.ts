import { nextDue, toDay, weekdayOf, fromDay, type LocalDate } from '../../../lib/core/calendar';
import type { Prisma } from '../../../lib/database/generated/client';
import { bookDay, type Booking } from './dispatch';
import { perform, writeVisit, type Seen } from './perform';
import type { World } from './world';

export type AfterVisit = (booking: Booking, seen: readonly Seen[]) => void;

const CANCELLED = [
  'Health inspector in the kitchen that morning.',
  'Private party, no access.',
  'Van off the road.',
  'Manager asked for another day.',
] as const;

const asDate = (d: LocalDate) => new Date(`${d}T00:00:00Z`);
const localOf = (d: Date) => d.toISOString().slice(0, 10) as LocalDate;

/** The outstanding date of a task row under its present rule. */
function setDue(task: Prisma.TaskCreateManyInput): void {
  const due = nextDue({
    rule: task.rule,
    anchor: task.anchor ?? 'last_completed',
    anchorDate: localOf(task.anchorDate as Date),
    lastDoneOn: task.lastDoneOn ? localOf(task.lastDoneOn as Date) : null,
  });
  if (due) task.dueOn = asDate(due);
}

/** First due dates, staggered over the kitchens so that the shop does not start with everything at once. */
export function stagger(world: World): void {
  world.kitchens.forEach((kitchen, n) => {
    const first = fromDay(toDay(world.start) + 7 + ((n * 37) % 80));
    for (const unit of kitchen.units)
      for (const task of unit.tasks) {
        task.anchorDate = asDate(first);
        setDue(task);
      }
  });
}

/** Lives through the record day by day, `after` moving dates and rules on, up to but not including today; returns what is booked for today and later. */
export function liveThrough(world: World, after: AfterVisit): Booking[] {
  let pending: Booking[] = [];
  const today = toDay(world.today);
  for (let day = toDay(world.start); day < today; day++) {
    const now = pending.filter((b) => toDay(b.date) === day);
    pending = pending.filter((b) => toDay(b.date) > day);
    for (const booking of now) {
      booking.kitchen.booked = false;
      if (world.random.chance(0.035)) {
        writeVisit(world, booking, 'cancelled', world.random.pick(CANCELLED));
        continue;
      }
      const seen = perform(world, booking);
      after(
        booking,
        seen.filter((s) => s.reached),
      );
    }
    if (weekdayOf(fromDay(day)) < 5) {
      const taken = new Set(pending.flatMap((b) => b.units.flatMap((u) => u.tasks.map((t) => t.id as string))));
      pending.push(...bookDay(world, day, taken));
    }
  }
  return pending;
}
