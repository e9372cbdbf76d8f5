import type { Me } from '../core/tablet';
import { metaOf, openDatabase, readMeta, writeMeta, type Database } from './database';

/** Which tablet this is and whose work it holds. */
export async function identity(db: Database): Promise<{ id: string; holder: string }> {
  const id = await readMeta(metaOf(db), 'deviceId');
  const me = await readMeta(metaOf(db), 'me');
  if (!id || !me) throw new Error('The tablet has no identity yet.');
  return { id, holder: me.userId };
}

/** Opens a person's database and gives it an identity if it is new. */
export async function openFor(me: Me, deviceId: string, onOutdated?: () => void, onLost?: () => void): Promise<Database> {
  const db = await openDatabase(me.userId, onOutdated, onLost);
  if (!(await readMeta(metaOf(db), 'deviceId'))) await writeMeta(metaOf(db), { deviceId, nextSeq: 1 });
  await writeMeta(metaOf(db), { me });
  return db;
}
