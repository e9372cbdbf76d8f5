import 'server-only';
import type { Estimate } from '../../../core/condenser';
import { seenAt } from '../../../core/findings/seen';
import type { Prisma, Tx } from '../../../database/client';

export type EstimateColumns = { status: string; verdict: string; lnK: number | null; lnKSd: number | null; modelVersion: string };

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
