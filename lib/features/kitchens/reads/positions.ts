import 'server-only';
import type { Tx } from '../../../database/client';

/** Kitchens on file without a position, by customer: how many there are, how many fit what is sought, and the first `limit` of those. */
export async function kitchensWithoutPosition(db: Tx, limit: number, sought = '') {
  const where = { archivedAt: null, lat: null, customer: { archivedAt: null } };
  const contains = { contains: sought, mode: 'insensitive' as const };
  const fits = sought ? { ...where, OR: [{ name: contains }, { address: contains }, { customer: { name: contains } }] } : where;
  const rows = await db.kitchen.findMany({
    where: fits,
    orderBy: [{ customer: { name: 'asc' } }, { name: 'asc' }],
    take: limit,
    select: { id: true, name: true, address: true, version: true, customer: { select: { name: true } } },
  });
  const [total, fitting] = [await db.kitchen.count({ where }), await db.kitchen.count({ where: fits })];
  return { total, fitting, kitchens: rows.map(({ customer, ...k }) => ({ ...k, customer: customer.name })) };
}

const PLACED = { archivedAt: null, lat: { not: null }, lng: { not: null } };

export const countPlaced = (db: Tx): Promise<number> => db.kitchen.count({ where: PLACED });

/** Kitchens that have one, for a map. */
export async function kitchenPoints(db: Tx, limit: number) {
  const rows = await db.kitchen.findMany({
    where: PLACED,
    take: limit,
    orderBy: { name: 'asc' },
    select: { id: true, name: true, lat: true, lng: true },
  });
  return rows.flatMap(({ lat, lng, ...k }) => (lat === null || lng === null ? [] : [{ ...k, lat, lng }]));
}
