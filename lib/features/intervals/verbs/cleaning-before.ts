import 'server-only';
import { instantOf, type LocalDate } from '../../../core/calendar';
import { CLEANED_BEFORE } from '../../evidence/reads/unit-records';
import type { Tx } from '../../../database/client';

/** A task is about to forget when the coil was cleaned before our first visit: that date is evidence, so it is kept. */
export async function keepCleaningBefore(tx: Tx, unitId: string, on: LocalDate, timeZone: string): Promise<void> {
  const at = new Date(instantOf(on, '12:00', timeZone));
  if ((await tx.unitEvent.count({ where: { unitId, kind: CLEANED_BEFORE, at } })) > 0) return;
  await tx.unitEvent.create({ data: { unitId, kind: CLEANED_BEFORE, at, note: 'As it was put on file.' } });
}
