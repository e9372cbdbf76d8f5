import 'server-only';
import { toLocalDate } from '../../../core/calendar/date-column';
import type { Tx } from '../../../database/client';
import { weekly } from '../../visits/reads/visits';

const range = (r: { id: string; startsOn: Date; endsOn: Date; reason: string }) => ({
  id: r.id,
  startsOn: toLocalDate(r.startsOn),
  endsOn: toLocalDate(r.endsOn),
  reason: r.reason,
});

/** One kitchen's own fields, or null. */
export async function kitchenToEdit(db: Tx, id: string) {
  const k = await db.kitchen.findUnique({
    where: { id },
    include: { customer: { select: { id: true, name: true, archivedAt: true } }, blackouts: { orderBy: { startsOn: 'asc' } } },
  });
  return k && { ...k, serviceHours: weekly(k.serviceHours), blackouts: k.blackouts.map(range) };
}
/** A kitchen's units with their tasks, those archived last. */
export async function unitsOfKitchen(db: Tx, kitchenId: string) {
  const rows = await db.unit.findMany({
    where: { kitchenId },
    orderBy: [{ archivedAt: { sort: 'asc', nulls: 'first' } }, { name: 'asc' }],
    include: {
      tasks: {
        where: { active: true },
        include: { kind: { select: { label: true, sort: true } }, visitTasks: { where: { open: true }, select: { visitId: true } } },
      },
    },
  });
  return rows.map(({ tasks, ...u }) => ({
    ...u,
    tasks: tasks
      .map((t) => ({
        id: t.id,
        kindKey: t.kindKey,
        label: t.kind.label,
        sort: t.kind.sort,
        rule: t.rule,
        dueOn: toLocalDate(t.dueOn),
        onVisit: t.visitTasks[0]?.visitId ?? null,
      }))
      .sort((a, b) => a.sort - b.sort),
  }));
}
