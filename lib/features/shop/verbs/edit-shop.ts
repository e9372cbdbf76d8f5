import 'server-only';
import { AppError } from '../../../core/errors';
import { withinTransaction } from '../../../database/transaction';
import type { EditShop } from '../../../schemas/shop/shop';
import { staleError, writeEdit } from '../../audit/verbs/changes';
import type { ServiceContext } from '../../context';

/** @throws AppError not_found | conflict — someone changed the shop since `seen`. */
export function editShop({ db, actor, now }: ServiceContext, { seen, ...data }: EditShop): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const before = await tx.shopSettings.findUnique({ where: { id: 1 }, omit: { logoPng: true } });
    if (!before) throw new AppError('not_found', 'The shop is not set up yet.');
    if (before.updatedAt.toISOString() !== seen) throw await staleError(tx, 'ShopSettings', '1', 'the shop’s settings');
    await tx.shopSettings.update({ where: { id: 1 }, data });
    await writeEdit(tx, { actor, now }, { action: 'shop.edited', entity: 'ShopSettings', id: '1' }, before, data);
  });
}
