import 'server-only';
import { shortCode } from '../../../core/tablet/short-code';
import type { Tx } from '../../../database/client';

/** A label code that nobody has yet, made from the unit's id; longer where the short one is taken. */
export async function freeTag(db: Tx, unitId: string): Promise<string> {
  for (let length = 6; ; length++) {
    const tag = shortCode(unitId, length);
    if (!(await db.unit.findUnique({ where: { tag }, select: { id: true } }))) return tag;
  }
}
