import 'server-only';
import { AppError } from '../../../core/errors';
import { STORED_POLICY } from '../../../database/stored/shop';
import { withinTransaction } from '../../../database/transaction';
import type { SetCosts } from '../../../schemas/shop/shop';
import { staleError } from '../../audit/verbs/changes';
import { auditBy } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';

/** Keeps what things cost the shop; the rest of its policy stays. @throws AppError not_found | conflict: changed since `seen` */
export function setCosts(
  { db, actor, now }: ServiceContext,
  { seen, cleaningCost, inspectionCost, failureCost, ...own }: SetCosts,
): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const shop = await tx.shopSettings.findUnique({ where: { id: 1 }, omit: { logoPng: true } });
    if (!shop) throw new AppError('not_found', 'The shop is not set up yet.');
    if (shop.updatedAt.toISOString() !== seen) throw await staleError(tx, 'ShopSettings', '1', 'the shop’s settings');
    const policy = STORED_POLICY.write({ ...STORED_POLICY.read(shop.policy), cleaningCost, inspectionCost, failureCost });
    await tx.shopSettings.update({ where: { id: 1 }, data: { ...own, policy } });
    await auditBy(
      tx,
      { actor, now },
      {
        action: 'shop.costs',
        entity: 'ShopSettings',
        entityId: '1',
        detail: { ...own, cleaningCost, inspectionCost, failureCost },
      },
    );
  });
}
