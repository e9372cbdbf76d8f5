import 'server-only';
import { AppError } from '../../../core/errors';
import { readPosition, type Position } from '../../../core/position';
import { withinTransaction } from '../../../database/transaction';
import { writeAudit } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';

/** Gives a kitchen its position as it was pasted; short codes are read near the shop. @throws AppError invalid | not_found */
export function setPosition({ db, actor, now }: ServiceContext, input: { kitchenId: string; text: string }): Promise<Position> {
  return withinTransaction(db, async (tx) => {
    const shop = await tx.shopSettings.findUnique({ where: { id: 1 }, select: { lat: true, lng: true } });
    const near = shop?.lat != null && shop.lng !== null ? { lat: shop.lat, lng: shop.lng } : null;
    const read = readPosition(input.text, near);
    if ('problem' in read) throw new AppError('invalid', read.problem, 'text');
    if (!read.position) throw new AppError('invalid', 'Paste a position first.', 'text');
    const { count } = await tx.kitchen.updateMany({
      where: { id: input.kitchenId, archivedAt: null },
      data: { ...read.position, positionFrom: 'hand', version: { increment: 1 } },
    });
    if (count === 0) throw new AppError('not_found', 'That kitchen is not on file.');
    await writeAudit(tx, {
      at: now,
      userId: actor?.userId ?? null,
      action: 'kitchen.position',
      entity: 'Kitchen',
      entityId: input.kitchenId,
      detail: { ...read.position },
    });
    return read.position;
  });
}
