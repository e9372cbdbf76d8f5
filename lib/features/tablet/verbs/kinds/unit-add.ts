import 'server-only';
import { writeAudit } from '../../../audit/verbs/write-audit';
import type { Tx } from '../../../../database/client';
import { createUnit } from '../../../equipment/verbs/create-unit';
import type { Handler } from '../context';
import { unitOnVisit } from '../unit-on-visit';

/** Names are unique in a kitchen: a second "Reach-in" becomes "Reach-in (2)". */
async function freeName(db: Tx, kitchenId: string, wanted: string): Promise<string> {
  for (let n = 1; ; n++) {
    const name = n === 1 ? wanted : `${wanted} (${n})`;
    if (
      !(await db.unit.findFirst({
        where: { kitchenId, archivedAt: null, name: { equals: name, mode: 'insensitive' } },
        select: { id: true },
      }))
    )
      return name;
  }
}

/** Puts a unit found on the spot on file with its usual tasks, for the office to look over. */
export const unitAdd: Handler<'unit.add'> = async (ctx, entry) => {
  const { db, visit, actor, now } = ctx;
  const { unitId, replacesId = null, ...u } = entry.payload;
  const replaced = replacesId === null ? null : await unitOnVisit(ctx, replacesId);
  const name = await freeName(db, visit.kitchenId, u.name);
  const { tag } = await createUnit(ctx, { ...u, name, id: unitId, kitchenId: visit.kitchenId, replacesId });
  await writeAudit(db, {
    at: now,
    userId: actor.userId,
    action: 'unit.added_on_visit',
    entity: 'Unit',
    entityId: unitId,
    detail: { visitId: visit.id, name },
  });
  ctx.chore(
    `${name} was not on file and has been added as ${tag}. Look over its details and print its label.${replaced ? ` It stands in place of ${replaced.name}: take that one out of use.` : ''}`,
  );
};
