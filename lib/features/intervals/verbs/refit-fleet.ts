import 'server-only';
import { todayIn } from '../../../core/calendar';
import { fitFleet, kitchenBeliefs, ownLimits, type UnitFile } from '../../../core/evidence';
import { groupBy } from '../../../core/numerics/group-by';
import { unitFiles } from '../../evidence/reads/findings-history';
import { policyOnFile } from '../../evidence/reads/fouling';
import { saveBelief, saveFleetBelief } from '../../evidence/verbs/save-belief';
import { shopTimeZone } from '../../shop/reads/shop';
import { withinTransaction } from '../../../database/transaction';
import type { ServiceContext } from '../../context';

/** Kitchens gone through at a time: a fleet need not fit in memory. */
const KITCHENS_AT_ONCE = 50;
/** Units that a fit looks at, whole kitchens at a time, evenly over the fleet. */
const FITTED_UNITS = 400;

/**
 * Fits the pooled prior to the fleet's history and brings every unit's posterior, limits and energy up to it. Rules
 * change only at visits.
 */
export async function refitFleet({ db, now }: Pick<ServiceContext, 'db' | 'now'>): Promise<{ units: number; modelVersion: string }> {
  const kitchens = (await db.kitchen.findMany({ where: { archivedAt: null }, select: { id: true }, orderBy: { id: 'asc' } })).map(
    (k) => k.id,
  );
  const all = await db.unit.count({ where: { archivedAt: null } });
  const stride = Math.max(1, Math.ceil(all / FITTED_UNITS));
  const sample: UnitFile[] = [];
  await inPieces(
    kitchens.filter((_, i) => i % stride === 0),
    async (ids) => void sample.push(...(await unitFiles(db, { kitchenIds: ids }))),
  );
  const fleet = fitFleet(sample, todayIn(await shopTimeZone(db), now.getTime()));
  await saveFleetBelief(db, fleet, now);
  const rules = await policyOnFile(db);
  let units = 0;
  await inPieces(kitchens, async (ids) => {
    const files = await unitFiles(db, { kitchenIds: ids });
    for (const [, group] of groupBy(files, (f) => f.kitchenId))
      await withinTransaction(db, async (tx) => {
        for (const b of kitchenBeliefs(group, fleet))
          await saveBelief(tx, b, ownLimits(b.file.unit, b.evidence.baseline, b.file.conditions, rules.ownLimits));
        units += group.length;
      });
  });
  return { units, modelVersion: fleet.fouling.modelVersion };
}

async function inPieces(ids: readonly string[], take: (piece: string[]) => Promise<void>): Promise<void> {
  for (let i = 0; i < ids.length; i += KITCHENS_AT_ONCE) await take(ids.slice(i, i + KITCHENS_AT_ONCE));
}
