import 'server-only';
import { followHabits } from '../../core/measures/habits';
import { shopHabits } from '../../features/shop/reads/shop';
import { db } from './db';

/** Another process may have saved another way: after so long the shop is asked again. */
const EVERY_MS = 10_000;

/** From here on dates, times and money are written in this process as the shop is used to. */
export async function followShop(): Promise<void> {
  followHabits(await shopHabits(db()));
}

/** The same as long as the process runs. A database that cannot be reached is asked again; whoever needs it says what is wrong. */
export async function keepFollowingShop(): Promise<void> {
  const follow = () => followShop().catch(() => {});
  await follow();
  setInterval(() => void follow(), EVERY_MS).unref();
}
