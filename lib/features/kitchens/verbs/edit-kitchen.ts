import 'server-only';
import { writePosition } from '../../../core/position';
import { STORED_HOURS } from '../../../database/stored/shop';
import { AppError } from '../../../core/errors';
import { withinTransaction } from '../../../database/transaction';
import type { EditKitchen } from '../../../schemas/customers/kitchens';
import { orSay, staleError, writeEdit } from '../../audit/verbs/changes';
import type { ServiceContext } from '../../context';
import { KITCHEN_REFUSALS } from './create-kitchen';
import { nearShop } from './set-position';

type Placed = { lat: number | null; lng: number | null };
/** Beyond what is lost where a position is written with five decimals. */
const moved = (a: Placed, b: Placed): boolean => writePosition(a) !== writePosition(b);

/** Due dates stay as they are, whatever the preferred weekday becomes. @throws AppError not_found | conflict */
export function editKitchen({ db, actor, now }: ServiceContext, { id, version, shortCode, ...given }: EditKitchen): Promise<void> {
  const work = withinTransaction(db, async (tx) => {
    const before = await tx.kitchen.findUnique({ where: { id } });
    if (!before) throw new AppError('not_found', 'That kitchen is not on file.');
    const data = { ...given, ...(shortCode ? await nearShop(tx, shortCode, 'position') : null) };
    const { count } = await tx.kitchen.updateMany({
      where: { id, version },
      data: {
        ...data,
        ...(moved(before, data) ? { positionFrom: 'hand' } : {}),
        serviceHours: STORED_HOURS.write(data.serviceHours),
        version: { increment: 1 },
      },
    });
    if (count === 0) throw await staleError(tx, 'Kitchen', id, 'this kitchen');
    await writeEdit(
      tx,
      { actor, now },
      { action: 'kitchen.edited', entity: 'Kitchen', id },
      { ...before, serviceHours: STORED_HOURS.read(before.serviceHours) },
      data,
    );
  });
  return orSay(work, KITCHEN_REFUSALS);
}
