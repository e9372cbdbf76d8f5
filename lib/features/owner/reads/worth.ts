import 'server-only';
import { cleaningWorth } from '../../../core/evidence';
import { type ShopPolicy } from '../../../core/intervals';
import type { Tx } from '../../../database/client';
import { STORED_WORTH, type WorthOnFile } from '../../../database/stored/figures';
import { dueCoils } from './due-coils';

export const WORTH = 'worth';
/** The cleanings that are weighed: those of the next month. */
const AHEAD_DAYS = 30;
const KEPT_MS = 30 * 3600_000;

type Prices = { cleaningCost: number; failureCost: number };

/** What the weighing rests on besides the coils themselves. */
const ground = (prices: Prices, { failureLimit, failureChancePerDay }: ShopPolicy): string =>
  JSON.stringify([prices.cleaningCost, prices.failureCost, failureLimit, failureChancePerDay]);

/** Cleaning against what it saves, reckoned from what is on file now. Of a large shop it goes through thousands of coils. */
export async function weighCleaning(db: Tx, now: Date, prices: Prices, policy: ShopPolicy): Promise<WorthOnFile> {
  const { coils, unseen, more } = await dueCoils(db, now, AHEAD_DAYS);
  return { worth: cleaningWorth(coils, prices, policy), unseen, more, days: AHEAD_DAYS, from: ground(prices, policy) };
}

/**
 * The same as the night left it, with the moment it is of; reckoned at once where there is none of the last day, or the shop
 * has said other prices since.
 */
export async function worthToday(db: Tx, now: Date, prices: Prices, policy: ShopPolicy): Promise<WorthOnFile & { at: Date }> {
  const row = await db.ownerFigure.findUnique({ where: { key: WORTH } });
  const kept = row && now.getTime() - row.at.getTime() < KEPT_MS ? STORED_WORTH.readOrNull(row.value) : null;
  if (row && kept && kept.from === ground(prices, policy)) return { ...kept, at: row.at };
  return { ...(await weighCleaning(db, now, prices, policy)), at: now };
}
