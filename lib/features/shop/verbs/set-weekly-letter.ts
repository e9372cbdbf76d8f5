import 'server-only';
import { withinTransaction } from '../../../database/transaction';
import type { WeeklyLetter } from '../../../schemas/shop/shop';
import { auditBy } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';

/** Whether owners get a letter on Mondays. */
export function setWeeklyLetter({ db, actor, now }: ServiceContext, { weeklyLetter }: WeeklyLetter): Promise<void> {
  return withinTransaction(db, async (tx) => {
    await tx.shopSettings.update({ where: { id: 1 }, data: { weeklyLetter } });
    await auditBy(tx, { actor, now }, {
      action: 'shop.weekly_letter', entity: 'ShopSettings', entityId: '1', detail: { changed: { weeklyLetter } },
    }); // prettier-ignore
  });
}
