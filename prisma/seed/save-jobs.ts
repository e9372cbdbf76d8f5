import type { Prisma } from '../../lib/database/generated/client';
import { inPieces } from './in-pieces';
import type { JobStories } from './simulate/job-stories';
import type { Out } from './simulate/world';

/** Jobs in the order in which they came up, each with its unit and its history. */
export async function saveJobs(tx: Prisma.TransactionClient, units: readonly Prisma.UnitCreateManyInput[], out: Out): Promise<void> {
  const kitchenOf = new Map(units.map((u) => [u.id, u.kitchenId]));
  const jobs = [...out.jobs].sort((a, b) => a.createdAt.getTime() - b.createdAt.getTime() || (a.id < b.id ? -1 : 1));
  const rows = jobs.map(({ unitId, again: _, ...job }): Prisma.JobCreateManyInput => ({
    ...job,
    source: 'finding',
    kitchenId: kitchenOf.get(unitId) ?? '',
  }));
  const events = jobs.flatMap((j): Prisma.JobEventCreateManyInput[] => [
    { jobId: j.id, at: j.createdAt, kind: 'opened', to: 'asked', visitId: j.foundVisitId, byUserId: j.createdById },
    ...j.again.map((a) => ({ jobId: j.id, at: a.at, kind: 'found_again' as const, reason: a.note, visitId: a.visitId, byUserId: a.by })),
    ...(j.closedAt
      ? [
          {
            jobId: j.id,
            at: j.closedAt,
            kind: 'moved' as const,
            from: 'asked' as const,
            to: j.state,
            reason: j.closedNote ?? '',
            byUserId: j.closedById,
          },
        ]
      : []),
  ]);
  await inPieces(rows, (data) => tx.job.createMany({ data }));
  await inPieces(jobs, (data) => tx.jobUnit.createMany({ data: data.map((j) => ({ jobId: j.id, unitId: j.unitId })) }));
  await inPieces(events, (data) => tx.jobEvent.createMany({ data }));
}

/** What the desk has on its lists, with quotes, parts and a warranty. */
export async function saveJobStories(
  tx: Prisma.TransactionClient,
  { jobs, events, quotes, parts, vans, warranties, outcomes, used }: JobStories,
): Promise<void> {
  await tx.job.createMany({ data: jobs.map(({ unitId: _, ...job }) => job) });
  await tx.jobUnit.createMany({ data: jobs.map((j) => ({ jobId: j.id, unitId: j.unitId })) });
  await tx.jobEvent.createMany({ data: events });
  await tx.quote.createMany({ data: quotes });
  await tx.part.createMany({ data: parts });
  await tx.partInVan.createMany({ data: vans });
  await tx.jobOutcome.createMany({ data: outcomes });
  await tx.partUsed.createMany({ data: used });
  await tx.warranty.createMany({ data: warranties });
}
