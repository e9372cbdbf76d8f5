import 'server-only';
import type { PartOnList } from '../../../core/parts';
import type { Tx } from '../../../database/client';

/** The shop's parts that are on file, by number. */
export const partsOnFile = (db: Tx) => db.part.findMany({ where: { archivedAt: null }, orderBy: { number: 'asc' } });

/** As many as a tablet takes along with every round; beyond them a part is typed. */
const MOST_ON_TABLET = 400;

/** The list as a tablet takes it along: what lies in the van first. */
export const partsOnTablet = (db: Tx): Promise<PartOnList[]> =>
  db.part.findMany({
    where: { archivedAt: null },
    orderBy: [{ inVan: 'desc' }, { inShop: 'desc' }, { number: 'asc' }],
    take: MOST_ON_TABLET,
    select: { id: true, number: true, name: true, inVan: true, inShop: true },
  });
