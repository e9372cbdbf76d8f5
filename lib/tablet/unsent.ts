import { openDatabase } from './database';
import { holder, holderOrOnDisk, people } from './people';

/**
 * How much of a person's work has not reached the office yet; 0 where this tablet keeps nothing of theirs, null where
 * what it keeps cannot be read: nobody is told then that nothing is left.
 */
export async function unsentWork(whose?: string): Promise<number | null> {
  const who = whose ?? (await holderOrOnDisk());
  if (!who) return 0;
  try {
    const db = await openDatabase(who);
    const waiting = (await db.countFromIndex('entries', 'waiting')) + (await db.countFromIndex('photos', 'waiting'));
    db.close();
    return waiting;
  } catch {
    return null;
  }
}

/** Who else has unsent work on this tablet, and how much, or null where that cannot be read: it goes when they sign in here again. */
export async function unsentOfOthers(): Promise<{ name: string; count: number | null }[]> {
  const others = people().filter((p) => p.userId !== holder());
  const counted = await Promise.all(others.map(async ({ userId, name }) => ({ name, count: await unsentWork(userId) })));
  return counted.filter((c) => c.count !== 0);
}
