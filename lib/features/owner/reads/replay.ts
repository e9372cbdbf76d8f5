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

/** Whether what is on file is older than a day, or nothing is. */
export async function replayIsOld(db: Tx, now: Date): Promise<boolean> {
  const row = await db.ownerFigure.findUnique({ where: { key: 'replay' }, select: { at: true } });
  return !row || now.getTime() - row.at.getTime() > 86_400_000;
}
