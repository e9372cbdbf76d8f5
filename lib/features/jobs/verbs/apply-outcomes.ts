import 'server-only';
import { JOB_OUTCOME_LABEL, type JobOutcome } from '../../../core/entries/entries';
import { canGo, type JobState } from '../../../core/jobs';
import type { Tx } from '../../../database/client';
import type { Prisma } from '../../../database/generated/client';
import { goOn } from './go-on';

const LEADS: Record<JobOutcome, { to: JobState; change?: Prisma.JobUncheckedUpdateInput }> = {
  done: { to: 'done' },
  found_right: { to: 'done' },
  needs_part: { to: 'agreed', change: { partsWanted: true } },
  needs_quote: { to: 'looked_at', change: { needsQuote: true } },
  not_done: { to: 'looked_at' },
};

/** Brings the jobs of a visit to where its technician said they stand, inside the caller's transaction. Closed ones stay closed. */
export async function applyOutcomes(tx: Tx, visitId: string, { by, at }: { by: string | null; at: Date }): Promise<void> {
  const said = await tx.jobOutcome.findMany({
    where: { visitId, job: { closedAt: null } },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    include: { job: { select: { id: true, state: true } } },
  });
  for (const { job, outcome, note, byUserId } of said) {
    const { to, change } = LEADS[outcome];
    if (!canGo(job.state, to)) continue;
    const reason = note ? `${JOB_OUTCOME_LABEL[outcome]}: ${note}` : `${JOB_OUTCOME_LABEL[outcome]}.`;
    await goOn(tx, job, { to, reason, at, by: byUserId ?? by, visitId, change });
  }
}
