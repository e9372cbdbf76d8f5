import 'server-only';
import type { Tx } from '../../../database/client';
import { fullKitchenName } from '../../../core/wording/kitchen-name';

/**
 * Kitchens on file without a position, by customer: how many there are, for how many of them a place was found that waits to be
 * accepted, and of the others the first `limit` that fit what is sought.
 */
export async function kitchensWithoutPosition(db: Tx, limit: number, sought = '') {
  const all = { archivedAt: null, lat: null, customer: { archivedAt: null } };
  const open = { ...all, NOT: { lookup: { is: { status: 'found' as const } } } };
  const contains = { contains: sought, mode: 'insensitive' as const };
  const fits = sought ? { ...open, OR: [{ name: contains }, { address: contains }, { customer: { name: contains } }] } : open;
  const rows = await db.kitchen.findMany({
    where: fits,
    orderBy: [{ customer: { name: 'asc' } }, { name: 'asc' }],
    take: limit,
    select: { id: true, name: true, address: true, version: true, customer: { select: { name: true } } },
  });
  const [total, without, fitting] = [
    await db.kitchen.count({ where: all }),
    await db.kitchen.count({ where: open }),
    await db.kitchen.count({ where: fits }),
  ];
  return { total, found: total - without, fitting, kitchens: rows.map(({ customer, ...k }) => ({ ...k, customer: customer.name })) };
}

const PLACED = { archivedAt: null, lat: { not: null }, lng: { not: null } };

export const countPlaced = (db: Tx): Promise<number> => db.kitchen.count({ where: PLACED });

/** Kitchens that have one, for a map. */
export async function kitchenPoints(db: Tx, limit: number) {
  const rows = await db.kitchen.findMany({
    where: PLACED,
    take: limit,
    orderBy: { name: 'asc' },
    select: { id: true, name: true, lat: true, lng: true, customer: { select: { name: true } } },
  });
  return rows.flatMap(({ id, lat, lng, ...k }) => (lat === null || lng === null ? [] : [{ id, name: fullKitchenName(k), lat, lng }]));
}
