import 'server-only';
import { todayIn, type LocalDate } from '../../../core/calendar';
import type { Estimate, Reading } from '../../../core/condenser';
import { readingOf, type ReadingRecord } from '../../../core/condenser/from-record';
import type { HeadReading } from '../../../core/evidence/pictures';
import type { VisitShown } from '../../../core/evidence/shown';
import type { Tx } from '../../../database/client';
import { STORED_ESTIMATE } from '../../../database/stored/estimate';
import { visitDate } from './findings-history';

type VisitRow = Pick<VisitShown, 'id' | 'technician' | 'outcome'> & {
  arrivedAt: Date | null;
  startsAt: Date;
  done: VisitShown['done'] | null;
  findings: VisitShown['findings'] | null;
  readings: { phase: string; result: unknown }[] | null;
};

/** Visits to the unit, newest first: what was found, read and done; and whether there are more. */
export async function visitHistory(
  db: Tx,
  unitId: string,
  timeZone: string,
  most: number,
): Promise<{ shown: VisitShown[]; more: boolean }> {
  // From the unit to its visits: the other way round every visit of the shop would be gone through.
  const rows = await db.$queryRaw<VisitRow[]>`
    SELECT v.id, v."arrivedAt", v."startsAt", p.name AS technician,
      (SELECT json_build_object('outcome', o.outcome, 'reason', o.reason) FROM "UnitVisit" o WHERE o."visitId" = v.id AND o."unitId" = ${unitId}::uuid) AS outcome,
      (SELECT json_agg(k.label ORDER BY k.sort, k.key) FROM "VisitTask" vt JOIN "Task" t ON t.id = vt."taskId" JOIN "TaskKind" k ON k.key = t."kindKey"
        WHERE vt."visitId" = v.id AND vt."unitId" = ${unitId}::uuid AND vt.outcome = 'done') AS done,
      (SELECT json_agg(json_build_object('aspect', f.aspect, 'grade', f.grade, 'phase', f.phase, 'notLookedWhy', f."notLookedWhy", 'note', f.note) ORDER BY f.at, f.id)
        FROM "Finding" f WHERE f."visitId" = v.id AND f."unitId" = ${unitId}::uuid AND f."supersededAt" IS NULL) AS findings,
      (SELECT json_agg(json_build_object('phase', r.phase, 'result', e.result) ORDER BY r.at, r.id)
        FROM "Reading" r LEFT JOIN "Estimate" e ON e."readingId" = r.id WHERE r."visitId" = v.id AND r."unitId" = ${unitId}::uuid AND r."supersededAt" IS NULL) AS readings
    FROM (
      SELECT * FROM "Visit" WHERE status IN ('started', 'done') AND id IN (
        SELECT "visitId" FROM "Finding" WHERE "unitId" = ${unitId}::uuid
        UNION SELECT "visitId" FROM "Reading" WHERE "unitId" = ${unitId}::uuid
        UNION SELECT "visitId" FROM "VisitTask" WHERE "unitId" = ${unitId}::uuid)
      ORDER BY "startsAt" DESC, id LIMIT ${most + 1}
    ) v JOIN "User" p ON p.id = v."technicianId" ORDER BY v."startsAt" DESC, v.id`;
  const shown = rows.slice(0, most).map((v) => ({
    id: v.id,
    on: visitDate(v, timeZone),
    technician: v.technician,
    outcome: v.outcome,
    done: v.done ?? [],
    findings: v.findings ?? [],
    readings: (v.readings ?? []).map((r) => ({ phase: r.phase, estimate: STORED_ESTIMATE.readOrNull(r.result) })),
  }));
  return { shown, more: rows.length > most };
}

export type LatestReading = { on: LocalDate; estimate: Estimate; reading: Reading };

type ReadingRow = Omit<HeadReading, 'at' | 'airK'> & { at: Date; airK: number | null; says: boolean; latest: Latest | null };
type Latest = { reading: ReadingRecord; result: unknown };

/**
 * Head (or bend temperature) against coil air, of readings that could say something; and the newest of these, or else the
 * newest at all, with its estimate.
 */
export async function unitReadings(
  db: Tx,
  unitId: string,
  timeZone: string,
): Promise<{ latest: LatestReading | null; heads: HeadReading[] }> {
  // What could say something comes first among the states.
  const rows = await db.$queryRaw<ReadingRow[]>`
    SELECT r.at, r.phase::text AS phase, r."headPaGauge", r."condensingClampK" AS "clampK", r."airInK" AS "airK", e.status = 'ok' AS says,
      CASE WHEN row_number() OVER (ORDER BY e.status, e.at DESC, e.id) = 1 THEN json_build_object('reading', r, 'result', e.result) END AS latest
    FROM "Estimate" e JOIN "Reading" r ON r.id = e."readingId" WHERE e."unitId" = ${unitId}::uuid AND r."supersededAt" IS NULL ORDER BY r.at, r.id`;
  const newest = rows.find((r) => r.latest)?.latest;
  return {
    latest: newest
      ? {
          on: todayIn(timeZone, new Date(newest.reading.at).getTime()),
          estimate: STORED_ESTIMATE.read(newest.result),
          reading: readingOf(newest.reading),
        }
      : null,
    heads: rows.flatMap(({ at, phase, headPaGauge, clampK, airK, says }) =>
      says && airK !== null ? [{ at: at.getTime(), phase, airK, headPaGauge, clampK }] : [],
    ),
  };
}
