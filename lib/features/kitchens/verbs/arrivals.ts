import 'server-only';
import { AppError } from '../../../core/errors';
import { disagrees, learnt, MOST_ACCURACY_M } from '../../../core/position';
import type { Actor } from '../../../core/people/access';
import type { Tx } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import type { Arrivals } from '../../../schemas/customers/kitchens';
import { auditBy } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';

const KEPT_DAYS = 90;
const DAY_MS = 86_400_000;
const since = (now: Date) => new Date(now.getTime() - KEPT_DAYS * DAY_MS);

type ArrivalsContext = Omit<ServiceContext, 'actor'> & { actor: Pick<Actor, 'userId'> };

/**
 * Takes in where a tablet was at its arrivals, and whether its person allows that. Only the place, its accuracy and the time
 * are kept, of visits that were this person's and were begun; without leave nothing is, and what does not help is dropped.
 */
export function tellArrivals({ db, actor, now }: ArrivalsContext, { allow, fixes }: Arrivals): Promise<void> {
  return withinTransaction(db, async (tx) => {
    if (allow !== undefined) await tx.user.update({ where: { id: actor.userId }, data: { sharesArrivals: allow } });
    const { sharesArrivals } = await tx.user.findUniqueOrThrow({ where: { id: actor.userId }, select: { sharesArrivals: true } });
    if (!sharesArrivals) return;
    const good = fixes.filter((f) => f.accuracyM <= MOST_ACCURACY_M && Date.parse(f.at) > since(now).getTime());
    const visits = await tx.visit.findMany({
      where: { id: { in: good.map((f) => f.visitId) }, technicianId: actor.userId, status: { in: ['started', 'done'] } },
      select: { id: true, kitchenId: true },
    });
    const kitchenOf = new Map(visits.map((v) => [v.id, v.kitchenId]));
    const rows = good.flatMap(({ visitId, at, ...fix }) => {
      const kitchenId = kitchenOf.get(visitId);
      return kitchenId ? [{ ...fix, kitchenId, at: new Date(at) }] : [];
    });
    await tx.arrivalFix.createMany({ data: rows, skipDuplicates: true });
    for (const id of new Set(rows.map((r) => r.kitchenId))) await settle(tx, id);
  });
}

/** Arrivals that only confirm what is on file have served. */
async function settle(tx: Tx, kitchenId: string): Promise<void> {
  const { lat, lng, arrivals } = await tx.kitchen.findUniqueOrThrow({
    where: { id: kitchenId },
    select: { lat: true, lng: true, arrivals: true },
  });
  const found = learnt(arrivals);
  if (found && lat !== null && lng !== null && !disagrees({ lat, lng }, found)) await tx.arrivalFix.deleteMany({ where: { kitchenId } });
}

/** What is older than 90 days goes, whether it was of use or not. */
export const forgetArrivals = async ({ db, now }: Pick<ServiceContext, 'db' | 'now'>): Promise<number> =>
  (await db.arrivalFix.deleteMany({ where: { at: { lt: since(now) } } })).count;

/**
 * Gives a kitchen the middle of its arrivals. Over a position that is on file it is a person's decision about this one
 * kitchen, and counts as set by hand. The arrivals are then deleted. @throws AppError conflict: too few of them
 */
export function takeLearnt({ db, actor, now }: ServiceContext, { kitchenId }: { kitchenId: string }): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const kitchen = await tx.kitchen.findFirst({ where: { id: kitchenId, archivedAt: null }, select: { lat: true, arrivals: true } });
    const found = kitchen && learnt(kitchen.arrivals);
    if (!kitchen || !found) throw new AppError('conflict', 'There are not enough arrivals at this kitchen any more.');
    const at = { lat: Number(found.lat.toFixed(6)), lng: Number(found.lng.toFixed(6)) };
    await tx.kitchen.update({
      where: { id: kitchenId },
      data: { ...at, positionFrom: kitchen.lat === null ? 'arrivals' : 'hand', version: { increment: 1 } },
    });
    await tx.arrivalFix.deleteMany({ where: { kitchenId } });
    await auditBy(
      tx,
      { actor, now },
      {
        action: 'kitchen.position_learnt',
        entity: 'Kitchen',
        entityId: kitchenId,
        detail: { ...at, arrivals: found.n, mostWithinM: Math.round(found.mostWithinM) },
      },
    );
  });
}

/** The position on file is right: what the arrivals said is deleted. */
export async function dropLearnt({ db }: ServiceContext, { kitchenId }: { kitchenId: string }): Promise<void> {
  await db.arrivalFix.deleteMany({ where: { kitchenId } });
}
