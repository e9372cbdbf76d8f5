import 'server-only';
import { todayIn } from '../../../core/calendar';
import type { ReturnOnFile } from '../../../core/evidence';
import { isOpen } from '../../../core/jobs';
import { groupBy } from '../../../core/numerics/group-by';
import type { Tx } from '../../../database/client';
import { visitDate } from '../../evidence/reads/findings-history';

/** Every job of some units whose cause a look can settle, by unit. */
export async function returnsOfUnits(db: Tx, unitIds: readonly string[], timeZone: string): Promise<Map<string, ReturnOnFile[]>> {
  const rows = await db.jobUnit.findMany({
    where: { unitId: { in: [...unitIds] }, job: { cause: { not: '' } } },
    select: {
      unitId: true,
      job: {
        select: {
          id: true,
          cause: true,
          state: true,
          foundVisitId: true,
          createdAt: true,
          events: { where: { kind: 'found_again' }, select: { visitId: true, at: true } },
        },
      },
    },
  });
  const ids = rows.flatMap(({ job }) => [job.foundVisitId, ...job.events.map((e) => e.visitId)]).filter((id) => id !== null);
  const visits = await db.visit.findMany({ where: { id: { in: ids } }, select: { id: true, arrivedAt: true, startsAt: true } });
  const dayOf = new Map(visits.map((v) => [v.id, visitDate(v, timeZone)]));
  const found = ({ visitId, at }: { visitId: string | null; at: Date }) => dayOf.get(visitId ?? '') ?? todayIn(timeZone, at.getTime());
  const settledJobs = rows.map(({ unitId, job }) => ({
    unitId,
    id: job.id,
    cause: job.cause,
    open: isOpen(job.state),
    visitId: job.foundVisitId,
    foundOn: [{ visitId: job.foundVisitId, at: job.createdAt }, ...job.events].map(found).sort(),
  }));
  return groupBy(settledJobs, (r) => r.unitId);
}
