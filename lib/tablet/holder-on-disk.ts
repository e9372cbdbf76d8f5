import { openDB, type DBSchema } from 'idb';

interface Schema extends DBSchema {
  holder: { key: 'now'; value: string };
}

const open = () => openDB<Schema>('rimebook.tablet', 1, { upgrade: (db) => void db.createObjectStore('holder') });

/**
 * Who holds this tablet, flushed to the disk: what `people.ts` keeps is written by the browser seconds later, so that a
 * tablet that falls right after its first round would not know whose work it holds. Null: nobody. Never throws.
 */
export async function keepHolder(userId: string | null): Promise<void> {
  try {
    const db = await open();
    const { store, done } = db.transaction('holder', 'readwrite', { durability: 'strict' });
    await Promise.all([userId === null ? store.delete('now') : store.put(userId, 'now'), done]);
    db.close();
  } catch {
    // Storage that may be switched off: then the tablet remembers nobody.
  }
}

export async function holderOnDisk(): Promise<string | null> {
  try {
    const db = await open();
    const userId = (await db.get('holder', 'now')) ?? null;
    db.close();
    return userId;
  } catch {
    return null;
  }
}
