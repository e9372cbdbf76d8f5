import 'server-only';
import type { Aspect } from '../../../core/findings/grades';
import { Prisma, type Tx } from '../../../database/client';
import { STOPPED } from '../../equipment/reads/trouble';

export type FindingOnLine = { unit: string; aspect: Aspect; grade: string; phase: 'found' | 'left' };

/** A visit with what a kitchen's line of time tells of it: of findings those that do not do their work, of all else how much. */
export type VisitOnLine = {
  id: string;
  status: 'started' | 'done' | 'cancelled';
  startsAt: Date;
  arrivedAt: Date | null;
  emergency: boolean;
  cancelReason: string;
  technician: string;
  looked: boolean;
  stopped: FindingOnLine[] | null;
  done: { what: string; n: number }[] | null;
  readings: number;
  parts: string[] | null;
  photos: number;
  /** Rules changed by what was found there. */
  moved: number;
};

/** The latest visits of a kitchen that are over, under way or cancelled. */
export const kitchenVisits = (db: Tx, kitchenId: string, most: number): Promise<VisitOnLine[]> =>
  db.$queryRaw<VisitOnLine[]>(Prisma.sql`
    SELECT v.id, v.status::text AS status, v."startsAt", v."arrivedAt", v.emergency, v."cancelReason", p.name AS technician,
      EXISTS (SELECT FROM "Finding" f WHERE f."visitId" = v.id AND f.phase = 'found' AND f."supersededAt" IS NULL) AS looked,
      (SELECT json_agg(json_build_object('unit', u.name, 'aspect', f.aspect, 'grade', f.grade, 'phase', f.phase) ORDER BY f.at, f.id)
        FROM "Finding" f JOIN "Unit" u ON u.id = f."unitId"
        WHERE f."visitId" = v.id AND f."supersededAt" IS NULL AND f.grade IS NOT NULL AND f.aspect || ' ' || f.grade IN (${STOPPED})) AS stopped,
      (SELECT json_agg(d) FROM (
        SELECT lower(k.label) AS what, count(*)::int AS n FROM "VisitTask" vt JOIN "Task" t ON t.id = vt."taskId" JOIN "TaskKind" k ON k.key = t."kindKey"
        WHERE vt."visitId" = v.id AND vt.outcome = 'done' GROUP BY k.key ORDER BY k.sort, k.key) d) AS done,
      (SELECT count(*)::int FROM "Reading" r WHERE r."visitId" = v.id AND r."supersededAt" IS NULL) AS readings,
      (SELECT json_agg(u.what ORDER BY u.at, u.id) FROM "PartUsed" u WHERE u."visitId" = v.id) AS parts,
      (SELECT count(*)::int FROM "Photo" f WHERE f."visitId" = v.id) AS photos,
      (SELECT count(*)::int FROM "RuleChange" c WHERE c."visitId" = v.id AND c.kind = 'evidence') AS moved
    FROM "Visit" v JOIN "User" p ON p.id = v."technicianId"
    WHERE v."kitchenId" = ${kitchenId}::uuid AND v.status IN ('done', 'started', 'cancelled') ORDER BY v."startsAt" DESC, v.id LIMIT ${most}`);
