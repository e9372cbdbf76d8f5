import 'server-only';
import { addDays, todayIn, weeksRule } from '../../../core/calendar';
import { firstTask } from '../../../core/first-task';
import { shortCode } from '../../../core/round/short-code';
import { startingWeeks, usualTasks } from '../../../core/tasks';
import type { Tx } from '../../../data/client';
import { fromLocalDate } from '../../../data/dates';
import type { Handler } from '../context';

/** A code nobody has yet; longer where the short one is taken. */
async function freeTag(db: Tx, id: string): Promise<string> {
  for (let length = 6; ; length++) {
    const tag = shortCode(id, length);
    if (!(await db.unit.findUnique({ where: { tag }, select: { id: true } }))) return tag;
  }
}

/** Names are unique in a kitchen: a second "Reach-in" becomes "Reach-in (2)". */
async function freeName(db: Tx, kitchenId: string, wanted: string): Promise<string> {
  for (let n = 1; ; n++) {
    const name = n === 1 ? wanted : `${wanted} (${n})`;
    if (!(await db.unit.findFirst({ where: { kitchenId, name: { equals: name, mode: 'insensitive' } }, select: { id: true } }))) return name;
  }
}

/** Puts a unit found on the spot on file with its usual tasks, for the office to look over. */
export const unitAdd: Handler<'unit.add'> = async (ctx, op) => {
  const { db, visit, actor, now } = ctx;
  const { unitId, ...u } = op.payload;
  const tag = await freeTag(db, unitId);
  const name = await freeName(db, visit.kitchenId, u.name);
  await db.unit.create({ data: { ...u, name, id: unitId, kitchenId: visit.kitchenId, tag, createdAt: now } });
  const kinds = await db.taskKind.findMany({ where: { active: true, key: { in: [...usualTasks(u.kind)] } } });
  const today = todayIn(visit.timeZone, now.getTime());
  for (const kind of kinds) {
    const weeks = startingWeeks(kind.key as Parameters<typeof startingWeeks>[0], u.placement);
    // Nobody knows when it was last cleaned: due at once on the coil's own interval, which the finding of today then moves.
    const first = firstTask({ rule: weeksRule(weeks), anchor: 'last_completed', firstDue: addDays(today, 7 * Math.min(weeks, 4)), lastDoneOn: null, today });
    await db.task.create({
      data: {
        unitId, kitchenId: visit.kitchenId, kindKey: kind.key, rule: first.rule, anchor: first.anchor, minWeeks: kind.minWeeks, maxWeeks: kind.maxWeeks,
        anchorDate: fromLocalDate(first.anchorDate), dueOn: fromLocalDate(first.dueOn), createdAt: now,
      },
    });
  }
  await db.auditEntry.create({ data: { at: now, userId: actor.userId, action: 'unit.added_on_visit', entity: 'Unit', entityId: unitId, detail: { visitId: visit.id, name } } });
  ctx.note(`${name} was not on file and has been added as ${tag}. Look over its details and print its label.`);
};
