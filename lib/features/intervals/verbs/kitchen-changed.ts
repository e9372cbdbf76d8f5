import 'server-only';
import { instantOf, todayIn } from '../../../core/calendar';
import { kitchenBeliefs } from '../../../core/evidence';
import { AppError } from '../../../core/errors';
import type { KitchenChanged } from '../../../schemas/customers/kitchens';
import type { Tx } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import { auditBy } from '../../audit/verbs/write-audit';
import { fleetBelief } from '../../evidence/reads/fouling';
import { unitFiles } from '../../evidence/reads/findings-history';
import { saveBelief } from '../../evidence/verbs/save-belief';
import type { ServiceContext } from '../../context';

const KIND = { more: 'fouls_more', less: 'fouls_less' } as const;

/**
 * A fryer added, a menu or hours changed: from that day on every coil of the kitchen breathes more, or less. Beliefs
 * follow at once; rules at the next visits, each with its reason. Answers with how many units it was kept for.
 * @throws AppError not_found | invalid — a day that has not come, or no unit that it could be kept for
 */
export function kitchenChanged({ db, actor, now }: ServiceContext, input: KitchenChanged): Promise<{ units: number }> {
  return withinTransaction(db, async (tx) => {
    // Whoever says so has answered, should it have been asked.
    await tx.changeQuestion.updateMany({
      where: { kitchenId: input.kitchenId, answeredAt: null },
      data: { answer: 'other', answeredAt: now, answeredById: actor?.userId ?? null },
    });
    return await keepChange(tx, { actor, now }, input);
  });
}

/**
 * Keeps the change for every unit of the kitchen and takes it into its beliefs.
 * @throws AppError not_found | invalid
 */
export async function keepChange(tx: Tx, { actor, now }: Pick<ServiceContext, 'actor' | 'now'>, input: KitchenChanged) {
  const kitchen = await tx.kitchen.findUnique({ where: { id: input.kitchenId }, select: { id: true, timeZone: true } });
  if (!kitchen) throw new AppError('not_found', 'That kitchen is not on file.');
  if (input.since > todayIn(kitchen.timeZone, now.getTime()))
    throw new AppError('invalid', 'That day has not come yet: say it once it has.');
  const units = await tx.unit.findMany({ where: { kitchenId: kitchen.id, archivedAt: null }, select: { id: true } });
  if (units.length === 0) throw new AppError('invalid', 'This kitchen has no unit on file that it could be kept for.');
  const at = new Date(instantOf(input.since, '00:00', kitchen.timeZone));
  await tx.unitEvent.createMany({
    data: units.map((u) => ({ unitId: u.id, kind: KIND[input.breathes], at, note: input.what, byUserId: actor?.userId ?? null })),
  });
  const fleet = await fleetBelief(tx);
  for (const belief of kitchenBeliefs(await unitFiles(tx, { kitchenId: kitchen.id }), fleet)) await saveBelief(tx, belief);
  await auditBy(
    tx,
    { actor, now },
    {
      action: 'kitchen.change_told',
      entity: 'Kitchen',
      entityId: kitchen.id,
      detail: { since: input.since, breathes: input.breathes, what: input.what },
    },
  );
  return { units: units.length };
}
