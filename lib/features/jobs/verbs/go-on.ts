import 'server-only';
import { canGo, isOpen, JOB_STATE_LABEL, type JobState } from '../../../core/jobs';
import { AppError } from '../../../core/errors';
import type { Tx } from '../../../database/client';
import type { Prisma } from '../../../database/generated/client';

export type Step = {
  to: JobState;
  reason: string;
  at: Date;
  /** Null where the program itself acts, or somebody without an account, who is then named. */
  by: string | null;
  byName?: string;
  /** The visit that it happened at. */
  visitId?: string | null;
  /** What else changes with it. */
  change?: Prisma.JobUncheckedUpdateInput;
};

/**
 * Brings a job on to another state, inside the caller's transaction: the row and its history together. Only a job that
 * still stands as it was read is moved.
 * @throws AppError conflict
 */
export async function goOn(tx: Tx, job: { id: string; state: JobState }, step: Step): Promise<void> {
  const { to, reason, at, by, byName = '', visitId = null, change = {} } = step;
  if (!canGo(job.state, to))
    throw new AppError('conflict', `A job that is “${JOB_STATE_LABEL[job.state]}” cannot become “${JOB_STATE_LABEL[to]}”.`);
  const end = isOpen(to)
    ? { closedAt: null, closedById: null, closedByName: '', closedNote: '' }
    : { closedAt: at, closedById: by, closedByName: byName, closedNote: reason };
  const { count } = await tx.job.updateMany({
    where: { id: job.id, state: job.state },
    data: { ...change, ...end, ...(to === 'booked' || !isOpen(to) ? { timeAsked: '' } : {}), state: to, version: { increment: 1 } },
  });
  if (count === 0) throw new AppError('conflict', 'Someone changed this job a moment ago. Load the page again.');
  await tx.jobEvent.create({
    data: { jobId: job.id, at, kind: 'moved', from: job.state, to, reason, visitId, byUserId: by, byName },
  });
}
