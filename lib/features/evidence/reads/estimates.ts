import 'server-only';
import type { Estimate } from '../../../core/condenser';
import { gradesAtReading } from '../../../core/evidence';
import type { Prisma, Tx } from '../../../database/client';

export type EstimateColumns = { status: string; verdict: string; lnK: number | null; lnKSd: number | null; modelVersion: string };

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

/** Saves an estimate in place of an earlier one of the same reading. */
export async function saveEstimate(
  db: Tx,
  reading: { id: string; unitId: string; at: Date },
  columns: EstimateColumns,
  result: Estimate,
): Promise<void> {
  const row = { ...columns, unitId: reading.unitId, at: reading.at, result: result as unknown as Prisma.InputJsonValue };
  await db.estimate.upsert({ where: { readingId: reading.id }, create: { ...row, readingId: reading.id }, update: row });
}
