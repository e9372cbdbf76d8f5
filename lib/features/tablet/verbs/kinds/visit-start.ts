import 'server-only';
import { timeNamed, type Handler } from '../context';

/** Arrival. Of two, the earlier counts. */
export const visitStart: Handler<'visit.start'> = async (ctx, entry) => {
  const { db, visit, actor } = ctx;
  const arrivedAt = timeNamed(ctx, entry.payload.arrivedAt);
  const earlier = visit.arrivedAt && visit.arrivedAt <= arrivedAt;
  if (earlier) ctx.same();
  const begins = visit.status === 'booked';
  if (begins || !earlier)
    await db.visit.update({
      where: { id: visit.id },
      data: { arrivedAt: earlier ? undefined : arrivedAt, ...(begins ? { status: 'started', version: { increment: 1 } } : {}) },
    });
  if (begins) await db.visitEvent.create({ data: { visitId: visit.id, kind: 'started', at: arrivedAt, byUserId: actor.userId } });
};
