import 'server-only';
import { cameMeanwhile } from '../came-meanwhile';
import { standsOver, type Handler } from '../context';
import { unitOnVisit } from '../unit-on-visit';

const OUTCOME_LABEL = { seen: 'seen', could_not_reach: 'could not be reached', gone: 'gone' } as const;

const outcomeSentence = ({ outcome, reason }: { outcome: keyof typeof OUTCOME_LABEL; reason: string }) =>
  reason ? `${OUTCOME_LABEL[outcome]} (${reason})` : OUTCOME_LABEL[outcome];

/** Whether the unit was reached. Gone units stay on file until the office takes them off. */
export const unitOutcome: Handler<'unit.outcome'> = async (ctx, entry) => {
  const { db, visit, at, deviceId } = ctx;
  const { unitId, outcome, reason } = entry.payload;
  const unit = await unitOnVisit(ctx, unitId);
  const standing = await db.unitVisit.findUnique({ where: { visitId_unitId: { visitId: visit.id, unitId } } });
  const wins = !standing || standsOver(ctx, entry.id, standing);
  const differs = standing && standing.deviceId !== deviceId && (standing.outcome !== outcome || standing.reason !== reason);
  if (differs && (await cameMeanwhile(ctx, ['unit.outcome'], { unitId })))
    ctx.note(
      `Two tablets differ on ${unit.name}: ${outcomeSentence(standing)} and ${outcomeSentence({ outcome, reason })}. The later stands: ${outcomeSentence(wins ? { outcome, reason } : standing)}.`,
    );
  if (!wins) return;
  await db.unitVisit.upsert({
    where: { visitId_unitId: { visitId: visit.id, unitId } },
    create: { id: entry.id, visitId: visit.id, unitId, outcome, reason, at, deviceId },
    update: { outcome, reason, at, deviceId },
  });
  if (outcome === 'gone') ctx.chore(`${unit.name} is gone: ${reason} Take it out of use, or ask the kitchen.`);
};
