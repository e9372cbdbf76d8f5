import 'server-only';
import { gradesAtReading } from '../../../core/evidence';
import type { Tx } from '../../../database/client';

/** A reading with what its estimate needs: unit, kitchen, and the look at coil and fan of the same visit. */
export async function readingToEstimate(db: Tx, readingId: string) {
  const reading = await db.reading.findUnique({
    where: { id: readingId },
    include: { unit: { include: { kitchen: true } }, visit: { select: { arrivedAt: true, startsAt: true } } },
  });
  if (!reading) return null;
  const seen = reading.visitId
    ? await db.finding.findMany({
        where: {
          visitId: reading.visitId,
          unitId: reading.unitId,
          supersededAt: null,
          aspect: { in: ['coil', 'fan'] },
          grade: { not: null },
        },
        select: { aspect: true, grade: true, phase: true },
      })
    : [];
  const looks = seen.map((f) => ({ ...f, unitId: reading.unitId }));
  return { reading, ...gradesAtReading(looks, reading) };
}
