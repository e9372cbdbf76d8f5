import 'server-only';
import { AppError } from '../../../core/errors';
import { refusedBy } from '../../../database/constraints';
import type { Db } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import { writeAudit } from '../../audit/verbs/write-audit';

/** Asks for an archive of everything; the queue makes it. @throws AppError conflict — one is being made */
export async function startArchive({ db, actor, now }: { db: Db; actor: { userId: string }; now: Date }): Promise<string> {
  try {
    return await withinTransaction(db, async (tx) => {
      const { id } = await tx.archiveRun.create({ data: { createdById: actor.userId, createdAt: now } });
      await writeAudit(tx, { at: now, userId: actor.userId, action: 'archive.asked', entity: 'ArchiveRun', entityId: id });
      return id;
    });
  } catch (e) {
    if (refusedBy(e) === 'ArchiveRun_one_at_a_time') throw new AppError('conflict', 'One is being made already.');
    throw e;
  }
}
