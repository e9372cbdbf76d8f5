import 'server-only';
import { AppError } from '../../../core/errors';
import { readPosition, type Position } from '../../../core/position';
import type { Tx } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import { auditBy } from '../../audit/verbs/write-audit';
import { shopPosition } from '../../shop/reads/shop';
import type { ServiceContext } from '../../context';

/** A position as it was pasted, short codes read near the shop; null of nothing. @throws AppError invalid, at the field named */
export async function nearShop(tx: Tx, text: string, field: string): Promise<Position | null> {
  const read = readPosition(text, await shopPosition(tx));
  if ('problem' in read) throw new AppError('invalid', read.problem, field);
  return read.position;
}

/** Gives a kitchen its position as it was pasted; short codes are read near the shop. @throws AppError invalid | not_found */
export function setPosition({ db, actor, now }: ServiceContext, input: { kitchenId: string; text: string }): Promise<Position> {
  return withinTransaction(db, async (tx) => {
    const position = await nearShop(tx, input.text, 'text');
    if (!position) throw new AppError('invalid', 'Paste a position first.', 'text');
    const { count } = await tx.kitchen.updateMany({
      where: { id: input.kitchenId, archivedAt: null },
      data: { ...position, positionFrom: 'hand', version: { increment: 1 } },
    });
    if (count === 0) throw new AppError('not_found', 'That kitchen is not on file.');
    await auditBy(
      tx,
      { actor, now },
      {
        action: 'kitchen.position',
        entity: 'Kitchen',
        entityId: input.kitchenId,
        detail: { ...position },
      },
    );
    return position;
  });
}
