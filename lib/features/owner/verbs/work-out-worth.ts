import 'server-only';
import type { Db } from '../../../database/client';
import { STORED_WORTH } from '../../../database/stored/figures';
import { policyOnFile } from '../../evidence/reads/fouling';
import { cleaningPrices, shopSettings } from '../../shop/reads/settings';
import { weighCleaning, WORTH } from '../reads/worth';

/** What cleaning saves, kept with the moment it is of; nothing where the shop has not said what things cost. */
export async function workOutWorth({ db, now }: { db: Db; now: Date }): Promise<void> {
  const shop = await shopSettings(db);
  const prices = shop && cleaningPrices(shop);
  if (!prices) return;
  const value = STORED_WORTH.write(await weighCleaning(db, now, prices, await policyOnFile(db)));
  await db.ownerFigure.upsert({ where: { key: WORTH }, create: { key: WORTH, at: now, value }, update: { at: now, value } });
}
