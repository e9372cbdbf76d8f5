import 'server-only';
import { STORED_ESTIMATE } from '../../../database/stored/estimate';
import type { PastVisit, UnitOnFile } from '../../../core/tablet';
import type { Aspect } from '../../../core/findings/grades';
import { groupBy } from '../../../core/numerics/group-by';
import type { Tx } from '../../../database/client';
import { findingEntry, iso, readingValues } from './rows';

const LAST_VISITS = 3;
const MOST_THUMBS = 3;

type Pair = { unitId: string; visitId: string };

/** The last three finished visits that left something about each unit, newest first. */
async function lastVisitPairs(db: Tx, unitIds: string[]): Promise<Pair[]> {
  return db.$queryRaw<Pair[]>`
    SELECT "unitId", "visitId" FROM (
      SELECT p."unitId", p."visitId", row_number() OVER (PARTITION BY p."unitId" ORDER BY v."startsAt" DESC, v.id) AS n
      FROM (SELECT "unitId", "visitId" FROM "Finding" WHERE "unitId" = ANY(${unitIds}::uuid[])
            UNION SELECT "unitId", "visitId" FROM "Reading" WHERE "unitId" = ANY(${unitIds}::uuid[]) AND "visitId" IS NOT NULL) p
      JOIN "Visit" v ON v.id = p."visitId" AND v.status = 'done'
    ) ranked WHERE n <= ${LAST_VISITS} ORDER BY n, "unitId"`;
}

/** Entries made in the same moment come in one order always: what a tablet holds is compared with this. */
const IN_TIME = [{ at: 'asc' }, { id: 'asc' }] as const;

export async function pastOfUnits(db: Tx, unitIds: string[]): Promise<Map<string, PastVisit[]>> {
  const pairs = await lastVisitPairs(db, unitIds);
  const where = { visitId: { in: pairs.map((p) => p.visitId) }, unitId: { in: unitIds }, supersededAt: null };
  const visits = await db.visit.findMany({
    where: { id: { in: pairs.map((p) => p.visitId) } },
    select: { id: true, startsAt: true, technician: { select: { name: true } } },
  });
  const findings = await db.finding.findMany({ where, orderBy: [...IN_TIME] });
  const readings = await db.reading.findMany({ where, include: { estimate: true }, orderBy: [...IN_TIME] });
  const visitById = new Map(visits.map((v) => [v.id, v]));
  const findingsBy = groupBy(findings, (f) => `${f.unitId} ${f.visitId}`);
  const readingsBy = groupBy(readings, (r) => `${r.unitId} ${r.visitId}`);
  const past = new Map<string, PastVisit[]>();
  for (const { unitId, visitId } of pairs) {
    const visit = visitById.get(visitId);
    if (!visit) continue;
    const key = `${unitId} ${visitId}`;
    const entry: PastVisit = {
      visitId,
      at: iso(visit.startsAt),
      by: visit.technician.name,
      findings: (findingsBy.get(key) ?? [])
        .map(findingEntry)
        .map(({ aspect, phase, grade, notLookedWhy }) => ({ aspect, phase, grade, notLookedWhy })),
      readings: (readingsBy.get(key) ?? []).map((r) => ({
        phase: r.phase,
        values: readingValues(r),
        verdict: r.estimate?.verdict ?? null,
        sentence: STORED_ESTIMATE.readOrNull(r.estimate?.result)?.sentence ?? '',
      })),
    };
    past.set(unitId, [...(past.get(unitId) ?? []), entry]);
  }
  return past;
}

export async function thumbsOfUnits(db: Tx, unitIds: string[]): Promise<Map<string, UnitOnFile['thumbs']>> {
  const rows = await db.$queryRaw<{ unitId: string; fileId: string; takenAt: Date; aspect: Aspect | null; phase: string }[]>`
    SELECT "unitId", "fileId", "takenAt", aspect, phase FROM (
      SELECT *, row_number() OVER (PARTITION BY "unitId" ORDER BY "takenAt" DESC, id) AS n
      FROM "Photo" WHERE "unitId" = ANY(${unitIds}::uuid[]) AND "fileId" IS NOT NULL
    ) ranked WHERE n <= ${MOST_THUMBS} ORDER BY n`;
  const thumbs = new Map<string, UnitOnFile['thumbs']>();
  for (const { unitId, takenAt, aspect, ...r } of rows)
    thumbs.set(unitId, [...(thumbs.get(unitId) ?? []), { ...r, aspect, takenAt: iso(takenAt) }]);
  return thumbs;
}
