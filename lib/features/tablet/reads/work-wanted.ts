import 'server-only';
import { urgencySaid } from '../../../core/jobs';
import type { FollowUpEntry } from '../../../core/tablet';
import type { Tx } from '../../../database/client';

/** What people wanted done at some visits, as a tablet says it: jobs opened there, and older ones found again there. */
export async function workWanted(db: Tx, visitIds: readonly string[]): Promise<(FollowUpEntry & { visitId: string })[]> {
  const events = await db.jobEvent.findMany({
    where: { visitId: { in: [...visitIds] }, kind: { in: ['opened', 'found_again', 'taken_back'] }, byUserId: { not: null } },
    orderBy: [{ at: 'asc' }, { seq: 'asc' }],
    include: { job: { include: { units: { orderBy: { unitId: 'asc' }, take: 1 } } } },
  });
  const takenBack = new Set(events.map((e) => e.aboutId));
  return events
    .filter((e) => e.kind !== 'taken_back' && !takenBack.has(e.id))
    .flatMap(({ id, kind, visitId, job }) =>
      job.units.flatMap(({ unitId }) =>
        visitId
          ? [{ id: kind === 'opened' ? job.id : id, visitId, unitId, what: job.what, urgency: urgencySaid(job), note: job.note }]
          : [],
      ),
    );
}
