import 'server-only';
import { addDays, type LocalDate } from '../../../core/calendar';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { foundChange } from '../../../core/intervals/change-question';
import type { Tx } from '../../../database/client';
import { surprisesOfKitchen } from '../reads/change-questions';

/** Looks of longer ago say nothing of a change that is still news. */
const LOOKED_BACK_DAYS = 270;

/** Asks the office what changed, where a kitchen's coils have come out other than expected and nobody has said why. One question at a time. */
export async function askChange(tx: Tx, kitchenId: string, on: LocalDate, now: Date): Promise<void> {
  const found = foundChange(await surprisesOfKitchen(tx, kitchenId, addDays(on, -LOOKED_BACK_DAYS)));
  if (!found) return;
  await tx.changeQuestion.createMany({
    data: [{ ...found, kitchenId, since: fromLocalDate(found.since), askedAt: now }],
    // One that is open already stands.
    skipDuplicates: true,
  });
}
