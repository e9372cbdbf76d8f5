import { addDays, approximateWeeks, toDay, type LocalDate } from '../../../lib/core/calendar';
import type { RandomStream } from '../../../lib/core/numerics/random';
import type { Prisma } from '../../../lib/database/generated/client';

type Change = Prisma.RuleChangeCreateManyInput;
type Task = Prisma.TaskCreateManyInput;

const localOf = (d: Date) => d.toISOString().slice(0, 10) as LocalDate;
/** Changes younger than this lie on the owner's table still. */
const UNREAD_DAYS = 8;

/** What the owner did with the changes: kept most of them some days later, and locked a few rules by agreement. */
export function reviewChanges(changes: Change[], tasks: readonly Task[], owner: string, today: LocalDate, random: RandomStream): void {
  for (const c of changes) {
    const on = localOf(c.at as Date);
    if (c.kind !== 'evidence' || toDay(today) - toDay(on) < UNREAD_DAYS) continue;
    Object.assign(c, {
      review: 'accepted',
      reviewedById: owner,
      reviewedAt: new Date((c.at as Date).getTime() + random.whole(1, 6) * 86_400_000),
    });
  }
  const agreed = tasks.filter(
    (t) =>
      t.kindKey === 'coil_cleaning' &&
      approximateWeeks(t.rule) >= 14 &&
      !changes.some((c) => c.taskId === t.id && localOf(c.at as Date) > addDays(today, -40)),
  );
  for (const task of agreed.slice(0, 3)) {
    task.locked = true;
    const at = new Date(`${addDays(today, -30)}T16:00:00Z`);
    changes.push({
      id: random.uuid(),
      taskId: task.id as string,
      at,
      kind: 'locked',
      fromRule: task.rule,
      toRule: task.rule,
      fromDueOn: task.dueOn,
      toDueOn: task.dueOn,
      reason: 'Agreed with the kitchen: stays as it is until their refit.',
      byUserId: owner,
    });
  }
}
