import 'server-only';
import { ASPECTS, stoppedGrades, type Aspect } from '../../../core/findings/grades';
import { Prisma, type Tx } from '../../../database/client';

/** Each aspect with the grades at which it does not do its work. */
const STOPPED = Prisma.join(ASPECTS.flatMap((a) => stoppedGrades(a).map((g) => `${a} ${g}`)));

export type StandingTrouble = { aspect: Aspect; grade: string; at: Date };
export type OpenFollowUp = { id: string; what: string; urgency: string; dueOn: Date | null; createdAt: Date };
export type SettledFollowUp = { id: string; what: string; dropped: boolean; at: Date; by: string | null; note: string };

/** The follow-ups of a unit that were settled last: by whom, and what came of them. */
export async function lastSettled(db: Tx, unitId: string, most: number): Promise<SettledFollowUp[]> {
  const rows = await db.followUp.findMany({
    where: { unitId, resolvedAt: { not: null } },
    orderBy: [{ resolvedAt: 'desc' }, { id: 'asc' }],
    take: most,
    select: { id: true, what: true, status: true, resolvedAt: true, resolvedNote: true, resolvedBy: { select: { name: true } } },
  });
  return rows.map((f) => ({
    id: f.id,
    what: f.what,
    dropped: f.status === 'dropped',
    at: f.resolvedAt as Date,
    by: f.resolvedBy?.name ?? null,
    note: f.resolvedNote,
  }));
}

/** What stands wrong with a unit: the last look at each part where it left something failed, and follow-ups still open. */
export async function unitTrouble(db: Tx, unitId: string): Promise<{ found: StandingTrouble[]; followUps: OpenFollowUp[] }> {
  const [found, followUps] = [
    await db.$queryRaw<StandingTrouble[]>(Prisma.sql`
      WITH last AS (
        SELECT DISTINCT ON (aspect) aspect::text, grade::text, at FROM "Finding"
        WHERE "unitId" = ${unitId}::uuid AND grade IS NOT NULL AND "supersededAt" IS NULL ORDER BY aspect, at DESC, (phase = 'left') DESC
      )
      SELECT aspect, grade, at FROM last WHERE aspect || ' ' || grade IN (${STOPPED}) ORDER BY at DESC`),
    await db.followUp.findMany({
      where: { unitId, status: 'open' },
      orderBy: [{ dueOn: 'asc' }, { createdAt: 'asc' }],
      take: 20,
      select: { id: true, what: true, urgency: true, dueOn: true, createdAt: true },
    }),
  ];
  return { found, followUps };
}
