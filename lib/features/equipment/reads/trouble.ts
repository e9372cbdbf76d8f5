import 'server-only';
import { ASPECTS, stoppedGrades, type Aspect } from '../../../core/findings/grades';
import type { JobState, JobUrgency } from '../../../core/jobs';
import { Prisma, type Tx } from '../../../database/client';

/** Each aspect with the grades at which it does not do its work. */
export const STOPPED = Prisma.join(ASPECTS.flatMap((a) => stoppedGrades(a).map((g) => `${a} ${g}`)));

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

const MOST_OPEN = 20;
const MOST_SETTLED = 5;

/** What stands wrong with a unit: the last look at each part where it left something failed. */
export const standingTrouble = (db: Tx, unitId: string): Promise<StandingTrouble[]> =>
  db.$queryRaw<StandingTrouble[]>(Prisma.sql`
    WITH last AS (
      SELECT DISTINCT ON (aspect) aspect::text, grade::text, at FROM "Finding"
      WHERE "unitId" = ${unitId}::uuid AND grade IS NOT NULL AND "supersededAt" IS NULL ORDER BY aspect, at DESC, (phase = 'left') DESC
    )
    SELECT aspect, grade, at FROM last WHERE aspect || ' ' || grade IN (${STOPPED}) ORDER BY at DESC`);

/** A unit's jobs: those still open, the first due first, and those settled last: by whom, and what came of them. */
export async function jobsOfUnit(db: Tx, unitId: string): Promise<{ open: OpenJob[]; settled: SettledJob[] }> {
  const rows = await db.job.findMany({
    where: { units: { some: { unitId } } },
    orderBy: [{ closedAt: { sort: 'desc', nulls: 'first' } }, { dueOn: { sort: 'asc', nulls: 'last' } }, { createdAt: 'asc' }, { id: 'asc' }],
    take: 200,
    select: {
      id: true, number: true, what: true, urgency: true, needsQuote: true, state: true, dueOn: true, createdAt: true,
      closedAt: true, closedNote: true, closedByName: true, closedBy: { select: { name: true } },
    },
  }); // prettier-ignore
  const settled = rows.flatMap((j) =>
    j.closedAt
      ? [{ id: j.id, what: j.what, declined: j.state === 'declined', at: j.closedAt, by: j.closedBy?.name ?? (j.closedByName || null), note: j.closedNote }]
      : [],
  ); // prettier-ignore
  return { open: rows.filter((j) => j.closedAt === null).slice(0, MOST_OPEN), settled: settled.slice(0, MOST_SETTLED) };
}
