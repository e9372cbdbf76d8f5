import 'server-only';
import { inOwnVan, inVans, type PartOnList } from '../../../core/parts';
import { TAKES_VISITS } from '../../people/reads/visiting';
import type { Tx } from '../../../database/client';

const VANS = { where: { pieces: { gt: 0 } }, orderBy: { technician: { name: 'asc' } } } as const;

/** The shop's parts that are on file, by number, with what lies in whose van. */
export async function partsOnFile(db: Tx) {
  const parts = await db.part.findMany({
    where: { archivedAt: null },
    orderBy: { number: 'asc' },
    include: { vans: { ...VANS, include: { technician: { select: { name: true } } } } },
  });
  return parts.map((p) => ({ ...p, inVans: inVans(p) }));
}

/** Who has a van, by name; where two are called the same, with their address. */
export async function vansOfShop(db: Tx): Promise<{ id: string; name: string }[]> {
  const people = await db.user.findMany({
    where: { active: true, ...TAKES_VISITS },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
    select: { id: true, name: true, email: true },
  });
  const called = (name: string) => people.filter((p) => p.name.toLowerCase() === name.toLowerCase()).length;
  return people.map(({ id, name, email }) => ({ id, name: called(name) > 1 ? `${name}, ${email}` : name }));
}

/** As many as a tablet takes along with every round; beyond them a part is typed. */
const MOST_ON_TABLET = 400;

/** The list as a technician's tablet takes it along: what lies in their van first. */
export async function partsOnTablet(db: Tx, technicianId: string): Promise<PartOnList[]> {
  const rows = await db.part.findMany({
    where: { archivedAt: null },
    select: { id: true, number: true, name: true, inVan: true, inShop: true, vans: { where: { technicianId } } },
    orderBy: { number: 'asc' },
  });
  return rows
    .map(({ vans, ...p }) => ({ ...p, inVan: inOwnVan({ inVan: p.inVan, vans }, technicianId) }))
    .sort((a, b) => b.inVan - a.inVan || b.inShop - a.inShop)
    .slice(0, MOST_ON_TABLET);
}
