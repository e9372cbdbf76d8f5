import 'server-only';
import { STORED_COMPRESSOR_MAP } from '../../../database/stored/shop';
import { isId } from '../../../core/ids/is-id';
import type { Tx } from '../../../database/client';
import { toLocalDate } from '../../../core/calendar/date-column';
import { changeOnFile } from '../../intervals/reads/change-on-file';

/** A unit with its kitchen and customer, or null. */
export async function unitPage(db: Tx, id: string) {
  const unit = await db.unit.findUnique({
    where: { id },
    include: {
      kitchen: { include: { customer: { select: { id: true, name: true } } } },
      replaces: { select: { id: true, name: true } },
      replacedBy: { select: { id: true, name: true }, orderBy: [{ createdAt: 'desc' }, { id: 'asc' }], take: 1 },
    },
  });
  return unit && { ...unit, compressorMap: STORED_COMPRESSOR_MAP.readOrNull(unit.compressorMap) };
}

export type TaskOnUnit = Awaited<ReturnType<typeof tasksOfUnit>>['tasks'][number];

/** A unit's tasks with the history of their rules, newest change first; tasks taken off come last. And the kinds that there are to add. */
export async function tasksOfUnit(db: Tx, unitId: string) {
  // From the kinds, few as they are: so both come in one statement.
  const kinds = await db.taskKind.findMany({
    where: { OR: [{ active: true }, { tasks: { some: { unitId } } }] },
    orderBy: [{ sort: 'asc' }, { key: 'asc' }],
    include: {
      tasks: {
        where: { unitId },
        include: {
          changes: { orderBy: { at: 'desc' }, take: 50 },
          visitTasks: { where: { open: true }, include: { visit: { select: { id: true, startsAt: true } } } },
        },
      },
    },
  });
  const rows = kinds.flatMap(({ tasks, ...kind }) => tasks.map((t) => ({ ...t, kind })));
  const ids = rows.flatMap((t) => t.changes.map((c) => c.byUserId)).filter((x): x is string => x !== null);
  const people = ids.length > 0 ? await db.user.findMany({ where: { id: { in: ids } }, select: { id: true, name: true } }) : [];
  const nameOf = new Map(people.map((p) => [p.id, p.name]));
  const tasks = rows
    .map((t) => ({
      id: t.id,
      version: t.version,
      unitId,
      kindKey: t.kindKey,
      label: t.kind.label,
      sort: t.kind.sort,
      rule: t.rule,
      anchor: t.anchor,
      anchorDate: toLocalDate(t.anchorDate),
      lastDoneOn: t.lastDoneOn && toLocalDate(t.lastDoneOn),
      dueOn: toLocalDate(t.dueOn),
      locked: t.locked,
      minWeeks: t.minWeeks,
      maxWeeks: t.maxWeeks,
      active: t.active,
      onVisit: t.visitTasks[0] ? { id: t.visitTasks[0].visit.id, startsAt: t.visitTasks[0].visit.startsAt.getTime() } : null,
      changes: t.changes.map((c) => ({
        ...changeOnFile(c),
        by: (c.byUserId && nameOf.get(c.byUserId)) ?? null,
      })),
    }))
    .sort((a, b) => Number(b.active) - Number(a.active) || a.sort - b.sort);
  return { tasks, kinds: kinds.filter((k) => k.active).map(({ key, label }) => ({ key, label })) };
}

/** A unit with its kitchen, or null, also for what cannot be an id. */
export const unitInKitchen = async (db: Tx, id: string | undefined) =>
  isId(id) ? db.unit.findUnique({ where: { id }, include: { kitchen: { include: { customer: { select: { name: true } } } } } }) : null;

/** Whether a unit is on file that is in use. */
export const anyUnit = async (db: Tx): Promise<boolean> =>
  (await db.unit.findFirst({ where: { archivedAt: null }, select: { id: true } })) !== null;
