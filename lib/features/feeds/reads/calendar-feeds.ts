import 'server-only';
import { TAKES_VISITS } from '../../people/reads/visiting';
import type { Tx } from '../../../database/client';

/** Technicians and kitchens, each with whether a calendar address of theirs is live. */
export async function calendarOwners(db: Tx) {
  const live = { where: { revokedAt: null }, select: { id: true } } as const;
  const technicians = await db.user.findMany({
    where: { active: true, ...TAKES_VISITS },
    orderBy: { name: 'asc' },
    select: { id: true, name: true, feeds: live },
  });
  const kitchens = await db.kitchen.findMany({
    where: { archivedAt: null },
    orderBy: [{ customer: { name: 'asc' } }, { name: 'asc' }],
    select: { id: true, name: true, customer: { select: { name: true } }, feeds: live },
    take: 500,
  });
  const row = (r: { id: string; name: string; feeds: unknown[] }) => ({ id: r.id, name: r.name, live: r.feeds.length > 0 });
  return { technicians: technicians.map(row), kitchens: kitchens.map((k) => ({ ...row(k), customer: k.customer.name })) };
}
