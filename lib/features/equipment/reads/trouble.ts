import 'server-only';
import { ASPECTS, stoppedGrades, type Aspect } from '../../../core/findings/grades';
import type { JobState, JobUrgency } from '../../../core/jobs';
import { Prisma, type Tx } from '../../../database/client';

/** Each aspect with the grades at which it does not do its work. */
const STOPPED = Prisma.join(ASPECTS.flatMap((a) => stoppedGrades(a).map((g) => `${a} ${g}`)));

export type StandingTrouble = { aspect: Aspect; grade: string; at: Date };
export type OpenJob = {
  id: string;
  number: number;
  what: string;
  urgency: JobUrgency;
  needsQuote: boolean;
  state: JobState;
  dueOn: Date | null;
  createdAt: Date;
};
export type SettledJob = { id: string; what: string; declined: boolean; at: Date; by: string | null; note: string };

/** The jobs of a unit that were settled last: by whom, and what came of them. */
export async function lastSettled(db: Tx, unitId: string, most: number): Promise<SettledJob[]> {
  const rows = await db.job.findMany({
    where: { units: { some: { unitId } }, closedAt: { not: null } },
    orderBy: [{ closedAt: 'desc' }, { id: 'asc' }],
    take: most,
    select: {
      id: true,
      what: true,
      state: true,
      closedAt: true,
      createdAt: true,
      closedNote: true,
      closedByName: true,
      closedBy: { select: { name: true } },
    },
  });
  return rows.map((j) => ({
    id: j.id,
    what: j.what,
    declined: j.state === 'declined',
    at: j.closedAt ?? j.createdAt,
    by: j.closedBy?.name ?? (j.closedByName || null),
    note: j.closedNote,
  }));
}

/** What stands wrong with a unit: the last look at each part where it left something failed, and jobs still open. */
export async function unitTrouble(db: Tx, unitId: string): Promise<{ found: StandingTrouble[]; jobs: OpenJob[] }> {
  const [found, jobs] = await Promise.all([
    db.$queryRaw<StandingTrouble[]>(Prisma.sql`
      WITH last AS (
        SELECT DISTINCT ON (aspect) aspect::text, grade::text, at FROM "Finding"
        WHERE "unitId" = ${unitId}::uuid AND grade IS NOT NULL AND "supersededAt" IS NULL ORDER BY aspect, at DESC, (phase = 'left') DESC
      )
      SELECT aspect, grade, at FROM last WHERE aspect || ' ' || grade IN (${STOPPED}) ORDER BY at DESC`),
    db.job.findMany({
      where: { units: { some: { unitId } }, closedAt: null },
      orderBy: [{ dueOn: 'asc' }, { createdAt: 'asc' }],
      take: 20,
      select: { id: true, number: true, what: true, urgency: true, needsQuote: true, state: true, dueOn: true, createdAt: true },
    }),
  ]);
  return { found, jobs };
}
