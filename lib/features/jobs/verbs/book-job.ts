import 'server-only';
import { AppError } from '../../../core/errors';
import type { Actor } from '../../../core/people/access';
import type { Db, Tx } from '../../../database/client';
import type { PutOnVisit } from '../../../schemas/jobs/jobs';
import { goOn } from './go-on';

type At = { actor: Pick<Actor, 'userId'>; now: Date };
/** Who books: somebody with an account, or the customer by name. */
type By = { actor: Pick<Actor, 'userId'> | null; now: Date; byName?: string };

/** The job behind a booking, as it must be for one. @throws AppError not_found | conflict */
export async function jobToBook(db: Db | Tx, jobId: string, kitchenId: string) {
  const job = await db.job.findUnique({
    where: { id: jobId },
    select: { id: true, number: true, what: true, state: true, urgency: true, kitchenId: true },
  });
  if (!job) throw new AppError('not_found', 'That job is not on file.');
  if (job.kitchenId !== kitchenId) throw new AppError('conflict', 'That job is of another kitchen.', 'kitchenId');
  return job;
}

/** Puts a job on a visit that was just booked, inside the caller's transaction. @throws AppError conflict where the job does not stand for booking */
export async function bookJob(
  tx: Tx,
  job: { id: string; state: Parameters<typeof goOn>[1]['state'] },
  visitId: string,
  { actor, now, byName }: By,
): Promise<void> {
  if (job.state === 'quoted') throw new AppError('conflict', 'The customer has not answered the quote. Say first that they agreed.');
  await goOn(tx, job, { to: 'booked', reason: '', at: now, by: actor?.userId ?? null, byName, visitId, change: { visitId } });
}

/** Puts a job on a visit to its kitchen that is booked already. @throws AppError not_found | conflict */
export async function putOnVisit({ db, actor, now }: At & { db: Db }, { jobId, visitId }: PutOnVisit): Promise<void> {
  await db.$transaction(async (tx) => {
    const visit = await tx.visit.findUnique({ where: { id: visitId }, select: { kitchenId: true, status: true } });
    if (!visit) throw new AppError('not_found', 'That visit is not on file.', 'visitId');
    if (visit.status !== 'booked' && visit.status !== 'started')
      throw new AppError('conflict', 'That visit is over. Choose another.', 'visitId');
    await bookJob(tx, await jobToBook(tx, jobId, visit.kitchenId), visitId, { actor, now });
  });
}
