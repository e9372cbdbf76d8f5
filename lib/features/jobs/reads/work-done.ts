import 'server-only';
import { addTimes, type TimeSpent } from '../../../core/visits/time-on-units';
import type { Tx } from '../../../database/client';
import { timeAtVisits } from '../../visits/reads/time-on-units';

type OfJob = { id: string; visitId: string | null; units: readonly { unitId: string }[] };

const DONE_IN_DAYS = 365;
const MOST_LOOKED_AT = 120;
/** From so few jobs nothing is said of how long one takes. Judgement. */
const FEWEST = 5;

/** What was done for a job: its visits with the time at its units and the parts that went in, and the work on sealed circuits. */
export async function workDoneFor(db: Tx, job: OfJob) {
  const unitIds = job.units.map((u) => u.unitId);
  const visits = await db.visit.findMany({
    where: {
      OR: [
        // Somebody was there when something came from there, though nobody tapped the arrival.
        ...(job.visitId ? [{ id: job.visitId, OR: [{ arrivedAt: { not: null } }, { parts: { some: {} } }] }] : []),
        { jobOutcomes: { some: { jobId: job.id } } },
      ],
    },
    orderBy: { startsAt: 'asc' },
    select: {
      id: true,
      startsAt: true,
      technician: { select: { name: true } },
      parts: {
        where: { OR: [{ unitId: { in: unitIds } }, { unitId: null }] },
        orderBy: { at: 'asc' },
        include: { part: { select: { number: true, priceCents: true } }, warranty: { select: { until: true } } },
      },
    },
  });
  const times = await timeAtVisits(
    db,
    visits.map((v) => v.id),
  );
  const records = await db.sealedRecord.findMany({
    where: { jobId: job.id },
    orderBy: { begunAt: 'asc' },
    include: { unit: { select: { id: true, name: true } }, _count: { select: { steps: { where: { supersededAt: null } } } } },
  });
  return {
    visits: visits.map((v) => ({ ...v, time: timeOf(times.get(v.id), unitIds) })),
    records: records.map((r) => ({ id: r.id, begunAt: r.begunAt, unit: r.unit, steps: r._count.steps })),
  };
}

function timeOf(spent: ReadonlyMap<string, TimeSpent> | undefined, unitIds: readonly string[]): TimeSpent | null {
  const times = unitIds.flatMap((id) => spent?.get(id) ?? []);
  return times.length === 0 ? null : addTimes(times);
}

/** Hours at the units that jobs done in the last year took, in order; null from too few to say. */
export async function hoursOfJobs(db: Tx, now: Date): Promise<{ median: number; lo: number; hi: number; jobs: number } | null> {
  const jobs = await db.job.findMany({
    where: {
      state: 'done',
      closedAt: { gte: new Date(now.getTime() - DONE_IN_DAYS * 86_400_000) },
      outcomes: { some: { outcome: 'done' } },
    },
    orderBy: { closedAt: 'desc' },
    take: MOST_LOOKED_AT,
    select: { outcomes: { select: { visitId: true } }, units: { select: { unitId: true } } },
  });
  const times = await timeAtVisits(
    db,
    jobs.flatMap((j) => j.outcomes.map((o) => o.visitId)),
  );
  const hours = jobs
    .map((j) =>
      j.outcomes.flatMap(
        (o) =>
          timeOf(
            times.get(o.visitId),
            j.units.map((u) => u.unitId),
          ) ?? [],
      ),
    )
    .filter((spent) => spent.length > 0)
    .map((spent) => addTimes(spent).minutes / 60)
    .sort((a, b) => a - b);
  if (hours.length < FEWEST) return null;
  const at = (q: number) => hours[Math.round(q * (hours.length - 1))] ?? NaN;
  return { median: at(0.5), lo: at(0.1), hi: at(0.9), jobs: hours.length };
}
