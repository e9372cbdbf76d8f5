import 'server-only';
import { closeVisit } from '../../../visits/verbs/close-visit';
import { timeNamed, type Handler } from '../context';

/** Closes the visit, unless the office cancelled it or another tablet closed it; then the entries are kept for the office. */
export const visitClose: Handler<'visit.close'> = async (ctx, entry) => {
  const { db, actor, now, visit } = ctx;
  if (visit.status === 'cancelled')
    return ctx.note('The office had cancelled this visit, but it was done. Its entries are kept; decide whether it counts.');
  if (visit.status === 'done') return ctx.same();
  const closed = await closeVisit(
    { db, actor, now },
    { visitId: visit.id, leftAt: timeNamed(ctx, entry.payload.leftAt), knownTaskIds: entry.payload.taskIds },
  );
  for (const message of closed.notes) ctx.chore(message);
};
