import 'server-only';
import { STORED_CHANGE_EVIDENCE } from '../../../database/stored/records';
import type { Tx } from '../../../database/client';
import { changeOnFile } from '../../intervals/reads/change-on-file';

const INCLUDE = {
  task: {
    include: {
      kind: { select: { label: true } },
      unit: {
        select: {
          id: true,
          name: true,
          placement: true,
          kitchen: { select: { id: true, name: true, timeZone: true, customer: { select: { name: true } } } },
        },
      },
      visitTasks: { where: { open: true }, select: { visitId: true } },
    },
  },
} as const;

type Filter = { since: Date; until?: Date; unreadOnly?: boolean; take?: number; /** Those that come after this one. */ after?: string };

/** Changes to rules in the words of who made them, newest first. */
export async function ruleChanges(db: Tx, { since, until, unreadOnly, take = 200, after }: Filter) {
  const rows = await db.ruleChange.findMany({
    where: {
      at: { gte: since, ...(until ? { lt: until } : {}) },
      ...(unreadOnly ? { kind: 'evidence', review: null } : {}),
      task: { active: true, unit: { archivedAt: null } },
    },
    orderBy: [{ at: 'desc' }, { id: 'asc' }],
    take,
    ...(after ? { cursor: { id: after }, skip: 1 } : {}),
    include: INCLUDE,
  });
  const people = await db.user.findMany({
    where: { id: { in: rows.flatMap((r) => [r.byUserId, r.reviewedById].filter((x): x is string => x !== null)) } },
    select: { id: true, name: true },
  });
  const nameOf = (id: string | null) => people.find((p) => p.id === id)?.name ?? null;
  return rows.map((r) => ({
    ...changeOnFile(r),
    evidence: STORED_CHANGE_EVIDENCE.read(r.evidence),
    by: nameOf(r.byUserId),
    visitId: r.visitId,
    reviewedBy: nameOf(r.reviewedById),
    task: {
      id: r.taskId,
      kind: r.task.kind.label,
      version: r.task.version,
      locked: r.task.locked,
      rule: r.task.rule,
      booked: r.task.visitTasks.length > 0,
    },
    unit: { id: r.task.unit.id, name: r.task.unit.name },
    kitchen: {
      id: r.task.unit.kitchen.id,
      name: r.task.unit.kitchen.name,
      customer: r.task.unit.kitchen.customer.name,
      timeZone: r.task.unit.kitchen.timeZone,
    },
  }));
}
export type RuleChangeRow = Awaited<ReturnType<typeof ruleChanges>>[number];

/** How many wait to be looked at: all less those of tasks that are no more, which are few and have an index. */
export async function unreadChanges(db: Tx): Promise<number> {
  const [row] = await db.$queryRaw<{ n: number }[]>`
    WITH unread AS (SELECT r."taskId" FROM "RuleChange" r WHERE r.kind = 'evidence' AND r.review IS NULL), gone AS (
      SELECT t.id FROM "Task" t WHERE NOT t.active UNION SELECT t.id FROM "Unit" u JOIN "Task" t ON t."unitId" = u.id WHERE u."archivedAt" IS NOT NULL
    )
    SELECT ((SELECT count(*) FROM unread) - (SELECT count(*) FROM unread WHERE "taskId" IN (SELECT id FROM gone)))::int AS n`;
  return row?.n ?? 0;
}
