import 'server-only';
import { AppError } from '../../../core/errors';
import type { ShopPolicy } from '../../../core/intervals';
import { policyOnFile } from '../../evidence/reads/fouling';
import { withinTransaction } from '../../../database/transaction';
import { staleError, writeEdit } from '../../audit/verbs/changes';
import { STORED_POLICY } from '../../../database/stored/shop';
import type { ServiceContext } from '../../context';

/** Keeps a policy. Rules follow at the next visits, each with its reason. @throws AppError not_found | conflict — changed since `seen`. */
export function setPolicy({ db, actor, now }: ServiceContext, rules: ShopPolicy, seen: string): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const shop = await tx.shopSettings.findUnique({ where: { id: 1 }, select: { updatedAt: true } });
    if (!shop) throw new AppError('not_found', 'The shop is not set up yet.');
    if (shop.updatedAt.toISOString() !== seen) throw await staleError(tx, 'ShopSettings', '1', 'the shop’s settings');
    const before = await policyOnFile(tx);
    await tx.shopSettings.update({ where: { id: 1 }, data: { policy: STORED_POLICY.write(rules) } });
    await writeEdit(tx, { actor, now }, { action: 'shop.policy', entity: 'ShopSettings', id: '1' }, before, rules);
  });
}
