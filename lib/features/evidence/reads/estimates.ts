import 'server-only';
import { seenAt } from '../../../core/findings/seen';
import type { Tx } from '../../../database/client';

/** A reading with what its estimate needs: unit, kitchen, and the grades that held when it was taken. */
export async function readingToEstimate(db: Tx, readingId: string) {
  const reading = await db.reading.findUnique({
    where: { id: readingId },
    include: { unit: { include: { kitchen: true } }, visit: { select: { arrivedAt: true, startsAt: true } } },
  });
  if (!reading) return null;
  const looks = reading.visitId
    ? await db.finding.findMany({
        where: { visitId: reading.visitId, unitId: reading.unitId, supersededAt: null, grade: { not: null } },
        select: { aspect: true, grade: true, phase: true },
      })
    : [];
  return { reading, seen: seenAt(looks, reading.phase) };
}
