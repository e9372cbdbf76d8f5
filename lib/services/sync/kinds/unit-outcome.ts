import 'server-only';
import type { Handler } from '../context';
import { unitOnVisit } from '../unit-on-visit';

const WORDS = { seen: 'seen', could_not_reach: 'could not be reached', gone: 'gone' } as const;

/** Whether the unit was reached. Gone units stay on file until the office takes them off. */
export const unitOutcome: Handler<'unit.outcome'> = async (ctx, op) => {
  const { db, visit, at } = ctx;
  const { unitId, outcome, reason } = op.payload;
  const unit = await unitOnVisit(ctx, unitId);
  const standing = await db.unitVisit.findUnique({ where: { visitId_unitId: { visitId: visit.id, unitId } } });
  if (standing && standing.at > at) {
    if (standing.outcome !== outcome)
      ctx.note(`${unit.name} was said to be ${WORDS[outcome]} before it was said to be ${WORDS[standing.outcome]}; the later stands.`);
    return;
  }
  await db.unitVisit.upsert({
    where: { visitId_unitId: { visitId: visit.id, unitId } },
    create: { id: op.id, visitId: visit.id, unitId, outcome, reason, at },
    update: { outcome, reason, at },
  });
  if (outcome === 'gone') ctx.note(`${unit.name} is gone: ${reason} Take it off file, or ask the kitchen.`);
};
