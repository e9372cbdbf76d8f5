import type { ArrivalFix, ArrivalsTold } from '../core/tablet';
import { metaOf, readMeta, STRICT, writeMeta, type Database } from './database';
import type { Office } from './office';

/** More wait only where the office has not been reached for weeks; the oldest give way. */
const MOST = 100;

/** The person's answer to whether arrivals may be told; it is true here at once, and goes to the office with the next talk. */
export async function answerArrivals(db: Database, allow: boolean): Promise<void> {
  const tx = db.transaction('meta', 'readwrite', STRICT);
  const me = await readMeta(tx.store, 'me');
  await writeMeta(tx.store, {
    arrivalsAnswer: allow,
    ...(me ? { me: { ...me, sharesArrivals: allow } } : {}),
    ...(allow ? {} : { arrivals: [] }),
  });
  await tx.done;
}

export async function keepArrival(db: Database, fix: ArrivalFix): Promise<void> {
  const tx = db.transaction('meta', 'readwrite', STRICT);
  const held = (await readMeta(tx.store, 'arrivals')) ?? [];
  await writeMeta(tx.store, { arrivals: [...held, fix].slice(-MOST) });
  await tx.done;
}

/** After the entries, because the office takes in arrivals of visits that were begun. What is told is forgotten here. @throws OfficeError */
export async function sendArrivals(db: Database, office: Office): Promise<void> {
  const [answer, me, held = []] = await Promise.all([
    readMeta(metaOf(db), 'arrivalsAnswer'),
    readMeta(metaOf(db), 'me'),
    readMeta(metaOf(db), 'arrivals'),
  ]);
  const fixes = me?.sharesArrivals ? held : [];
  if (answer === undefined && fixes.length === 0) return;
  const toSend: ArrivalsTold = answer === undefined ? { fixes } : { allow: answer, fixes };
  await office.arrivals(toSend);
  const gone = new Set(fixes.map((f) => f.id));
  const tx = db.transaction('meta', 'readwrite', STRICT);
  const now = (await readMeta(tx.store, 'arrivals')) ?? [];
  await writeMeta(tx.store, { arrivals: now.filter((f) => !gone.has(f.id)) });
  // Unless the person has changed their mind meanwhile.
  if ((await readMeta(tx.store, 'arrivalsAnswer')) === answer) await writeMeta(tx.store, { arrivalsAnswer: undefined });
  await tx.done;
}
