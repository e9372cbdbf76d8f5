import 'server-only';
import { groupBy } from '../../../core/numerics/group-by';
import { timeOnUnits, type Moment, type TimeSpent } from '../../../core/visits/time-on-units';
import type { Tx } from '../../../database/client';

const UNIT_AT = { select: { unitId: true, at: true } } as const;

/** How long some visits stood at each of their units, by visit and unit: told from when each thing was written down. */
export async function timeAtVisits(db: Tx, visitIds: readonly string[]): Promise<Map<string, Map<string, TimeSpent>>> {
  const visits = await db.visit.findMany({
    where: { id: { in: [...visitIds] } },
    select: {
      id: true,
      arrivedAt: true,
      leftAt: true,
      signedAt: true,
      findings: UNIT_AT,
      readings: { where: { phase: { not: 'log' } }, ...UNIT_AT },
      outcomes: UNIT_AT,
      parts: UNIT_AT,
      sealedSteps: UNIT_AT,
      tasks: { select: { unitId: true, answeredAt: true } },
      photos: { select: { unitId: true, takenAt: true } },
      jobOutcomes: { select: { at: true, job: { select: { units: { select: { unitId: true } } } } } },
    },
  });
  const events = groupBy(
    await db.unitEvent.findMany({ where: { visitId: { in: [...visitIds] } }, select: { visitId: true, unitId: true, at: true } }),
    (e) => e.visitId,
  );
  return new Map(
    visits.map((v) => {
      const moment = (unitId: string | null, at: Date | null): Moment[] => (at ? [{ unitId, at: at.getTime() }] : []);
      const moments = [
        ...[...v.findings, ...v.readings, ...v.outcomes, ...v.parts, ...v.sealedSteps, ...(events.get(v.id) ?? [])].flatMap((x) =>
          moment(x.unitId, x.at),
        ),
        ...v.tasks.flatMap((t) => moment(t.unitId, t.answeredAt)),
        ...v.photos.flatMap((p) => moment(p.unitId, p.takenAt)),
        // What is said of a job of one unit is said there.
        ...v.jobOutcomes.flatMap((o) => moment(o.job.units.length === 1 ? (o.job.units[0]?.unitId ?? null) : null, o.at)),
        ...moment(null, v.signedAt),
      ];
      return [v.id, timeOnUnits(moments, v.arrivedAt?.getTime() ?? null, v.leftAt?.getTime() ?? null)] as const;
    }),
  );
}
