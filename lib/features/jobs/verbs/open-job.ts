import 'server-only';
import { randomUUID } from 'node:crypto';
import type { JobSource, JobUrgency } from '../../../core/jobs';
import type { Tx } from '../../../database/client';

export type JobToOpen = {
  /** Given where an entry of a tablet opens it: the entry's own id. */
  id?: string;
  kitchenId: string;
  unitIds: readonly string[];
  source: JobSource;
  urgency: JobUrgency;
  what: string;
  note?: string;
  cause?: string;
  needsQuote?: boolean;
  dueOn?: Date | null;
  foundVisitId?: string | null;
  callerName?: string;
  callerPhone?: string;
};

/** Opens jobs with their units and the first line of their history, inside the caller's transaction. Gives back their ids. */
export async function openJobs(tx: Tx, jobs: readonly JobToOpen[], { by, at }: { by: string | null; at: Date }): Promise<string[]> {
  if (jobs.length === 0) return [];
  const rows = jobs.map(({ unitIds, id = randomUUID(), ...job }) => ({ unitIds, row: { ...job, id, createdById: by, createdAt: at } }));
  await tx.job.createMany({ data: rows.map((r) => r.row) });
  await tx.jobUnit.createMany({ data: rows.flatMap((r) => r.unitIds.map((unitId) => ({ jobId: r.row.id, unitId }))) });
  await tx.jobEvent.createMany({
    data: rows.map(({ row }) => ({
      jobId: row.id,
      at,
      kind: 'opened' as const,
      to: 'asked' as const,
      visitId: row.foundVisitId ?? null,
      byUserId: by,
    })),
  });
  return rows.map((r) => r.row.id);
}
