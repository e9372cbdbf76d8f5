import 'server-only';
import { groupKey, kitchenBeliefs, type FleetBelief, type UnitBelief } from '../../core/evidence';
import { defaultFailurePrior, fitFailurePrior, type FailureGroup, type FailurePosterior } from '../../core/fouling';
import { groupBy } from '../../core/numerics/group-by';
import { unitFiles } from '../../data/findings-history';
import { fleetBelief, saveBelief, saveFleetBelief } from '../../data/fouling';
import { withinTransaction } from '../../data/transaction';
import type { ServiceContext } from '../context';

/** Kitchens gone through at a time: a fleet need not fit in memory. */
const KITCHENS_AT_ONCE = 50;

/** Fits the pooled prior to the whole fleet's history and brings every unit's posterior up to it. */
export async function refitFleet({ db, now }: Pick<ServiceContext, 'db' | 'now'>): Promise<{ units: number }> {
  const before = await fleetBelief(db);
  const kitchens = (await db.kitchen.findMany({ where: { archivedAt: null }, select: { id: true }, orderBy: { id: 'asc' } })).map((k) => k.id);
  const looks: FailurePosterior[] = [];
  await eachKitchen(db, kitchens, before, async (beliefs) => void looks.push(...beliefs.flatMap((b) => [b.drain, b.ice])));
  const fitted: FleetBelief = { ...before, failures: fitFailures(looks) };
  await saveFleetBelief(db, fitted, now);
  let units = 0;
  await eachKitchen(db, kitchens, fitted, (beliefs) =>
    withinTransaction(db, async (tx) => {
      for (const b of beliefs) await saveBelief(tx, b);
      units += beliefs.length;
    }),
  );
  return { units };
}

/** Priors of drains and ice by kind of box, from the looks of all units of that kind. */
export function fitFailures(posteriors: readonly FailurePosterior[]): FleetBelief['failures'] {
  const groups = groupBy(posteriors, (p) => groupKey(p.group));
  return Object.fromEntries([...groups].map(([key, list]) => [key, fitFailurePrior(list, defaultFailurePrior((list[0] as FailurePosterior).group as FailureGroup))]));
}

async function eachKitchen(db: ServiceContext['db'], kitchens: readonly string[], fleet: FleetBelief, take: (beliefs: UnitBelief[]) => Promise<void>): Promise<void> {
  for (let i = 0; i < kitchens.length; i += KITCHENS_AT_ONCE) {
    const files = await unitFiles(db, { kitchenIds: kitchens.slice(i, i + KITCHENS_AT_ONCE) });
    for (const [, group] of groupBy(files, (f) => f.kitchenId)) await take(kitchenBeliefs(group, fleet));
  }
}
