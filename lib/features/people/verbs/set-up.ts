import 'server-only';
import { AppError } from '../../../core/errors';
import { writeAudit } from '../../audit/reads/audit';
import type { Db } from '../../../database/client';
import { lockAll } from '../../../database/lock';
import { withinTransaction } from '../../../database/transaction';
import type { SetUp } from '../../../schemas/shop';
import { hashPassword } from './password';

/**
 * Makes the shop and its first owner, once: only while nobody is on file. Two at the same moment queue up, and the
 * second is told. @throws AppError conflict
 */
export async function setUpShop({ db, now }: { db: Db; now: Date }, input: SetUp): Promise<{ userId: string }> {
  const passwordHash = await hashPassword(input.password);
  return withinTransaction(db, async (tx) => {
    await lockAll(tx, 'setUp');
    if ((await tx.user.count()) > 0)
      throw new AppError('conflict', 'This shop is set up already. Sign in; the owner can add you under People.');
    const shop = { name: input.shop, timeZone: input.timeZone, currency: input.currency };
    await tx.shopSettings.upsert({ where: { id: 1 }, create: { id: 1, ...shop }, update: shop });
    const { id } = await tx.user.create({ data: { name: input.name, email: input.email, role: 'owner', passwordHash, createdAt: now } });
    await writeAudit(tx, { at: now, userId: id, action: 'shop.set_up', entity: 'User', entityId: id });
    return { userId: id };
  });
}
