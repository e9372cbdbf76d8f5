import 'server-only';
import { randomUUID } from 'node:crypto';
import { AppError } from '../../../core/errors';
import type { Actor } from '../../../core/people/access';
import type { Db } from '../../../database/client';
import type { TakeCall } from '../../../schemas/jobs/jobs';
import { openJobs } from './open-job';

/**
 * Takes a call, or work that the office wants done, as a job.
 * @throws AppError not_found | conflict — a unit that is not on file at this kitchen
 */
export async function takeCall(
  { db, actor, now }: { db: Db; actor: Pick<Actor, 'userId'>; now: Date },
  input: TakeCall,
): Promise<{ jobId: string }> {
  const { kitchenId, unitIds } = input;
  return db.$transaction(async (tx) => {
    const kitchen = await tx.kitchen.findFirst({ where: { id: kitchenId, archivedAt: null }, select: { id: true } });
    if (!kitchen) throw new AppError('not_found', 'That kitchen is not on file.', 'kitchenId');
    const units = await tx.unit.count({ where: { id: { in: unitIds }, kitchenId, archivedAt: null } });
    if (units < unitIds.length)
      throw new AppError('conflict', 'A chosen unit is no longer on file at this kitchen. Choose again.', 'unitIds');
    const jobId = randomUUID();
    await openJobs(tx, [{ ...input, id: jobId }], { by: actor.userId, at: now });
    return { jobId };
  });
}
