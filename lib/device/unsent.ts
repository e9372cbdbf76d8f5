import { openDatabase } from './database';
import { holder } from './people';

/** How much work of whoever holds this tablet has not reached the office yet; 0 where there is no tablet's storage. */
export async function unsentWork(): Promise<number> {
  const who = holder();
  if (!who) return 0;
  try {
    const db = await openDatabase(who);
    const waiting = (await db.countFromIndex('operations', 'waiting')) + (await db.countFromIndex('photos', 'waiting'));
    db.close();
    return waiting;
  } catch {
    return 0;
  }
}
