import 'server-only';
import { isOpen } from '../../../core/jobs';
import { can, type Actor } from '../../../core/people/access';
import { AppError } from '../../../core/errors';
import type { Db, Tx } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import { goOn } from './go-on';

export type SettleJob = { jobId: string; as: 'done' | 'declined'; note: string };
type Ctx = { db: Db | Tx; actor: Pick<Actor, 'userId' | 'role'>; now: Date };

/**
 * Closes a job as done, or declines it with the reason.
 * @throws AppError not_allowed | invalid | not_found | conflict — someone was first, and is named
 */
export async function settleJob({ db, actor, now }: Ctx, { jobId, as, note }: SettleJob): Promise<void> {
  if (!can(actor, 'write:job')) throw new AppError('not_allowed', 'The office settles jobs.');
  const said = note.trim();
  if (as === 'declined' && said === '') throw new AppError('invalid', 'Say why nobody has to do it any more.', 'note');
  await withinTransaction(db, async (tx) => {
    await tx.$queryRaw`SELECT id FROM "Job" WHERE id = ${jobId}::uuid FOR UPDATE`;
    const job = await tx.job.findUnique({
      where: { id: jobId },
      select: { id: true, state: true, closedNote: true, closedByName: true, closedBy: { select: { name: true } } },
    });
    if (!job) throw new AppError('not_found', 'That job is not on file any more. Load the page again.');
    if (!isOpen(job.state)) {
      const name = job.closedBy?.name ?? job.closedByName;
      const quoted = job.closedNote ? `: “${job.closedNote}”` : '';
      const how = job.state === 'declined' ? 'declined this one' : 'settled this one as done';
      throw new AppError(
        'conflict',
        `${name ? `${name} has` : 'A closed visit has'} ${how} already${quoted}. Load the page again to see what is left.`,
      );
    }
    await goOn(tx, job, { to: as, reason: said, at: now, by: actor.userId });
  });
}
