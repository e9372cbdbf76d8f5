import 'server-only';
import { STEP_INFO, stepsFrom } from '../../../core/jobs';
import { AppError } from '../../../core/errors';
import type { Actor } from '../../../core/people/access';
import type { Db } from '../../../database/client';
import type { JobStepTaken } from '../../../schemas/jobs';
import { goOn } from './go-on';

/**
 * What the office says happened to a job. A change that leaves the state alone is written down all the same.
 * @throws AppError not_found | invalid | conflict
 */
export async function takeStep(
  { db, actor, now }: { db: Db; actor: Pick<Actor, 'userId'>; now: Date },
  input: JobStepTaken,
): Promise<void> {
  const { jobId, step, reason, from } = input;
  const { to, change = {}, why, label } = STEP_INFO[step];
  if (why && reason === '') throw new AppError('invalid', why, 'reason');
  await db.$transaction(async (tx) => {
    await tx.$queryRaw`SELECT id FROM "Job" WHERE id = ${jobId}::uuid FOR UPDATE`;
    const job = await tx.job.findUnique({ where: { id: jobId }, select: { id: true, state: true, needsQuote: true, partsWanted: true } });
    if (!job) throw new AppError('not_found', 'That job is not on file.');
    if (job.state !== from || !stepsFrom(job).includes(step))
      throw new AppError('conflict', 'Someone changed this job a moment ago. Load the page again.');
    if (to !== null && to !== job.state) {
      await goOn(tx, job, { to, reason, at: now, by: actor.userId, change });
      return;
    }
    await tx.job.update({ where: { id: jobId }, data: { ...change, version: { increment: 1 } } });
    const said = reason ? `${label}: ${reason}` : `${label}.`;
    await tx.jobEvent.create({ data: { jobId, at: now, kind: 'changed', reason: said, byUserId: actor.userId } });
  });
}
