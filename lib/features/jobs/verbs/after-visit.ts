import 'server-only';
import type { FoundAgain } from '../../../core/evidence';
import { isOpen } from '../../../core/jobs';
import { fromLocalDate } from '../../../core/calendar/date-column';
import type { Tx } from '../../../database/client';
import { goOn } from './go-on';

type There = { visitId: string; by: string | null; at: Date };

/** Jobs that a visit looked at and found right are done. Those closed already stay as they are. */
export async function foundRight(tx: Tx, ids: readonly string[], reason: string, { visitId, by, at }: There): Promise<void> {
  // Where the technician said what became of it, that is the word.
  const unsaid = { outcomes: { none: { visitId } } };
  const jobs = await tx.job.findMany({ where: { id: { in: [...ids] }, ...unsaid }, select: { id: true, state: true } });
  for (const job of jobs.filter((j) => isOpen(j.state))) await goOn(tx, job, { to: 'done', reason, at, by, visitId });
}

/** Jobs whose cause a visit found again go on, once a visit, with the new day to go back by. */
export async function foundAgain(tx: Tx, found: readonly FoundAgain[], { visitId, by, at }: There): Promise<void> {
  for (const { id, note, dueOn } of found) {
    if ((await tx.jobEvent.count({ where: { jobId: id, visitId, kind: 'found_again' } })) === 0)
      await tx.jobEvent.create({ data: { jobId: id, at, kind: 'found_again', reason: note, visitId, byUserId: by } });
    if (dueOn) await tx.job.update({ where: { id }, data: { dueOn: fromLocalDate(dueOn) } });
  }
}

/**
 * A visit that ends leaves none of its jobs booked: after one that was cancelled they stand where they stood before; after
 * one that closed without a word on them the office decides, and what was found again waits for a date again.
 */
export async function leaveVisit(tx: Tx, how: 'cancelled' | 'closed', { visitId, by, at }: There): Promise<void> {
  const jobs = await tx.job.findMany({
    where: { visitId, state: 'booked' },
    select: {
      id: true,
      state: true,
      events: {
        where: { OR: [{ to: 'booked' }, { kind: 'found_again', visitId }] },
        orderBy: { seq: 'desc' },
        select: { kind: true, from: true },
      },
    },
  });
  for (const job of jobs) {
    const before = job.events.find((e) => e.kind === 'moved' && e.from !== 'booked')?.from ?? 'asked';
    const again = job.events.some((e) => e.kind === 'found_again');
    const to = how === 'cancelled' ? before : again ? 'asked' : 'looked_at';
    const reason =
      how === 'cancelled' ? 'The visit was cancelled.' : again ? 'Found again at the visit.' : 'The visit closed without a word on it.';
    await goOn(tx, job, { to, reason, at, by, visitId });
  }
}
