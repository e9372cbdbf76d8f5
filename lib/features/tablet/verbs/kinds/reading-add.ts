import 'server-only';
import { STORED_ENTERED, STORED_QUESTIONED } from '../../../../database/stored/records';
import { attempt } from '../../../../database/savepoint';
import { storeEstimate } from '../../../evidence/verbs/store-estimate';
import { readingsDiffer } from '../../../../core/entries/readings-differ';
import { readingValues } from '../../reads/rows';
import { standsOver, type Handler } from '../context';
import { unitOnVisit } from '../unit-on-visit';

/** A reading beside what is there: the later made one stands. One that comes after the closing gets its estimate at once. */
export const readingAdd: Handler<'reading.add'> = async (ctx, entry) => {
  const { db, visit, actor, at, now, deviceId } = ctx;
  const { replaces, values, entered, questioned, ...p } = entry.payload;
  const unit = await unitOnVisit(ctx, p.unitId);
  const standing = await db.reading.findFirst({ where: { visitId: visit.id, unitId: p.unitId, phase: p.phase, supersededAt: null } });
  const wins = !standing || standsOver(ctx, entry.id, standing);
  if (standing && standing.id !== replaces && readingsDiffer(readingValues(standing), values))
    ctx.note(`Two readings ${p.phase} cleaning of ${unit.name}. The later made one stands; both are kept.`);
  if (standing && wins) await db.reading.update({ where: { id: standing.id }, data: { supersededAt: now } });
  await db.reading.create({
    data: {
      id: entry.id,
      visitId: visit.id,
      ...p,
      ...values,
      entered: STORED_ENTERED.write(entered),
      questioned: STORED_QUESTIONED.write(questioned),
      at,
      byUserId: actor.userId,
      deviceId,
      supersededAt: wins ? null : now,
    },
  });
  if (!wins || visit.status !== 'done') return;
  const failed = await attempt(db, () => storeEstimate({ db }, entry.id));
  if (failed !== null) ctx.note('Its estimate could not be worked out.');
};
