import 'server-only';
import { regionOfCurrency, REGIONS } from '../../../core/measures/region';
import { AppError } from '../../../core/errors';
import { writeAudit } from '../../audit/verbs/write-audit';
import type { Db } from '../../../database/client';
import { lockAll } from '../../../database/lock';
import { anyoneOnFile } from '../reads/people';
import { withinTransaction } from '../../../database/transaction';
import type { SetUp } from '../../../schemas/shop/shop';
import { refuseLeaked } from './leaked';
import { hashPassword } from './password';
import { isSetUpCode } from './set-up-code';

const done = () => new AppError('conflict', 'This shop is set up already. Sign in; the owner can add you under People.');

/**
 * Makes the shop and its first owner, once: only while nobody is on file, and only for whoever knows the code. Both are
 * asked before the password is hashed, which is slow. Two at the same moment queue up, and the second is told.
 * @throws AppError conflict | invalid — not the code
 */
export async function setUpShop({ db, now }: { db: Db; now: Date }, input: SetUp, code: string): Promise<{ userId: string }> {
  if (await anyoneOnFile(db)) throw done();
  if (!isSetUpCode(input.code, code))
    throw new AppError('invalid', 'That is not the code which was printed when Rimebook started.', 'code');
  await refuseLeaked(input.password);
  const passwordHash = await hashPassword(input.password);
  return withinTransaction(db, async (tx) => {
    await lockAll(tx, 'setUp');
    if (await anyoneOnFile(tx)) throw done();
    const region = regionOfCurrency(input.currency);
    const shop = { name: input.shop, timeZone: input.timeZone, currency: input.currency, region, dates: REGIONS[region].dates };
    await tx.shopSettings.upsert({ where: { id: 1 }, create: { id: 1, ...shop }, update: shop });
    const { id } = await tx.user.create({ data: { name: input.name, email: input.email, role: 'owner', passwordHash, createdAt: now } });
    await writeAudit(tx, { at: now, userId: id, action: 'shop.set_up', entity: 'User', entityId: id });
    return { userId: id };
  });
}
