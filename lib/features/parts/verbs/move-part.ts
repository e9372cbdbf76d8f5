import 'server-only';
import { AppError } from '../../../core/errors';
import { counted } from '../../../core/wording/counted';
import type { Db } from '../../../database/client';
import { refusedBy } from '../../../database/constraints';
import type { MovePart } from '../../../schemas/shop/parts';
import { vansOfShop } from '../reads/parts';
import { lockedPart, putOnHeap } from './part-used';

/**
 * Pieces of a part change their place: loaded into a van, brought back, bought, or gone.
 * @throws AppError not_found | conflict — that place has too few
 */
export async function movePart({ db }: { db: Db }, { number, pieces, from, to }: MovePart): Promise<void> {
  const vans = new Set((await vansOfShop(db)).map((v) => v.id));
  const heap = (place: string, field: 'from' | 'to') => {
    if (place === 'shop' || place === 'van') return { place, vanOfId: null } as const;
    if (field === 'to' && !vans.has(place)) throw new AppError('conflict', 'Nobody has that van any more. Choose another.', field);
    return { place: 'van', vanOfId: place } as const;
  };
  try {
    await db.$transaction(async (tx) => {
      const found = await tx.part.findFirst({ where: { number, archivedAt: null }, select: { id: true } });
      const part = found && (await lockedPart(tx, found.id));
      if (!part) throw new AppError('not_found', 'No part of that number is on the list.', 'number');
      if (from) await putOnHeap(tx, part.id, heap(from, 'from'), -pieces);
      if (to) await putOnHeap(tx, part.id, heap(to, 'to'), pieces);
    });
  } catch (e) {
    const by = refusedBy(e);
    if (by === 'part_counts' || by === 'part_in_van_pieces')
      throw new AppError('conflict', `The list has fewer than ${counted(pieces, 'piece')} there. Count them.`, 'pieces');
    throw e;
  }
}
