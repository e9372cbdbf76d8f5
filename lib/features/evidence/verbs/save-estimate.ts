import 'server-only';
import type { Estimate, Verdict } from '../../../core/condenser';
import { STORED_ESTIMATE } from '../../../database/stored/estimate';
import type { Tx } from '../../../database/client';

export type EstimateColumns = {
  status: Estimate['status'];
  verdict: Verdict;
  lnK: number | null;
  lnKSd: number | null;
  modelVersion: string;
};

/** Saves an estimate in place of an earlier one of the same reading. */
export async function saveEstimate(
  db: Tx,
  reading: { id: string; unitId: string; at: Date },
  columns: EstimateColumns,
  result: Estimate,
): Promise<void> {
  const row = { ...columns, unitId: reading.unitId, at: reading.at, result: STORED_ESTIMATE.write(result) };
  await db.estimate.upsert({ where: { readingId: reading.id }, create: { ...row, readingId: reading.id }, update: row });
}
