import 'server-only';
import { disagrees, judge, learnt, metresBetween, type Candidate, type Judged, type Learnt } from '../../../core/position';
import type { Tx } from '../../../database/client';
import { STORED_CANDIDATES } from '../../../database/stored/places';
import { fullKitchenName } from '../../../core/wording/kitchen-name';

type Named = { id: string; name: string; address: string };
export type Found = Named & { candidates: readonly Candidate[]; judged: Judged };
export type Unfound = Named & { problem: string };
export type Lookups = { waiting: number; problem: string; found: Found[]; foundTotal: number; unfound: Unfound[] };

const KITCHEN = { select: { id: true, name: true, address: true, customer: { select: { name: true } } } };
type Row = { id: string; name: string; address: string; customer: { name: string } };
const named = ({ customer, name, ...k }: Row): Named => ({ ...k, name: fullKitchenName({ name, customer }) });

/** What waits for the service, what it found for kitchens that still have no position, and what it did not find. */
export async function lookups(db: Tx, most: number): Promise<Lookups> {
  const lost = { archivedAt: null, lat: null };
  const where = { status: 'found' as const, kitchen: lost };
  const [waiting, troubled, found, foundTotal, unfound] = await Promise.all([
    db.placeLookup.count({ where: { status: 'waiting' } }),
    db.placeLookup.findFirst({ where: { status: 'waiting', problem: { not: '' } }, select: { problem: true } }),
    db.placeLookup.findMany({ where, take: most, orderBy: [{ createdAt: 'asc' }, { kitchenId: 'asc' }], include: { kitchen: KITCHEN } }),
    db.placeLookup.count({ where }),
    db.placeLookup.findMany({
      where: { status: { in: ['nothing', 'failed'] }, kitchen: lost },
      take: most,
      include: { kitchen: KITCHEN },
    }),
  ]);
  return {
    waiting,
    problem: troubled?.problem ?? '',
    foundTotal,
    found: found.map((l) => {
      const candidates = STORED_CANDIDATES.read(l.candidates);
      return { ...named(l.kitchen), candidates, judged: judge(l.address, candidates) };
    }),
    unfound: unfound.map((l) => ({ ...named(l.kitchen), problem: l.problem })),
  };
}

export type LearntPlace = Named & { found: Learnt; apartM: number | null };

/** Kitchens whose arrivals give a position that they have not, or that is far from the one on file. */
export async function learntPlaces(db: Tx): Promise<LearntPlace[]> {
  const rows = await db.kitchen.findMany({
    where: { archivedAt: null, arrivals: { some: {} } },
    select: { ...KITCHEN.select, lat: true, lng: true, arrivals: true },
    orderBy: { name: 'asc' },
  });
  return rows.flatMap(({ lat, lng, arrivals, ...k }) => {
    const found = learnt(arrivals);
    if (!found) return [];
    const onFile = lat !== null && lng !== null ? { lat, lng } : null;
    if (onFile && !disagrees(onFile, found)) return [];
    return [{ ...named(k), found, apartM: onFile && metresBetween(onFile, found) }];
  });
}
