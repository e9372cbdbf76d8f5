import 'server-only';
import type { Tx } from '../../../database/client';
import { STORED_REPLAY } from '../../../database/stored/figures';

/** The last year beside a calendar plan, with the moment it was worked out; null before the first night. */
export async function replayOnFile(db: Tx) {
  const row = await db.ownerFigure.findUnique({ where: { key: 'replay' } });
  const value = row && STORED_REPLAY.readOrNull(row.value);
  return row && value ? { ...value, at: row.at } : null;
}

/** Food that was over its limit at visits of a period, and somebody was told. */
export const foodWarnings = (db: Tx, from: Date) => db.foodWarning.count({ where: { toldAt: { gte: from } } });
