import 'server-only';
import { AppError } from '../../../core/errors';
import { visitsOnFile } from '../../tablet/reads/visits-on-file';
import { withinTransaction } from '../../../database/transaction';
import type { ServiceContext } from '../../context';
import { takeConsequences } from './take-consequences';

/**
 * Estimates and rules of a closed visit once more, after they failed at its closing.
 * @throws AppError not_found | conflict
 */
export async function reviseVisit(ctx: ServiceContext, visitId: string): Promise<void> {
  await withinTransaction(ctx.db, async (db) => {
    const [visit] = await visitsOnFile(db, [visitId], null);
    if (!visit) throw new AppError('not_found', 'That visit is not on file.');
    if (visit.status !== 'done') throw new AppError('conflict', 'The visit is not closed; its rules follow when it is.');
    const failed = await takeConsequences({ ...ctx, db }, visit.id);
    if (failed) throw new AppError('conflict', 'It failed again. The reason is kept with the visit; tell whoever looks after the program.');
    await db.visitEvent.create({ data: { visitId, kind: 'revised', at: ctx.now, byUserId: ctx.actor?.userId } });
  });
}
