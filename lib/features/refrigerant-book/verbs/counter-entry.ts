import 'server-only';
import type { Tx } from '../../../database/client';
import type { CylinderEntry } from '../../../database/generated/client';

/** Takes a line of the book back by another that says why: what is in the book is never changed. */
export const counterEntry = (db: Tx, entry: CylinderEntry, said: { byUserId: string; at: Date; note: string }) => {
  const { id: correctsId, cylinderId, way, kg, unitId, visitId, stepId, recoveredFor } = entry;
  return db.cylinderEntry.create({ data: { cylinderId, way, kg: -kg, unitId, visitId, stepId, recoveredFor, correctsId, ...said } });
};
