import type { RoundReply } from '../core/round';
import { metaOf, readMeta, STRICT, writeMeta, type Database } from './database';
import { identity } from './identity';
import type { AppName, Office } from './office';

/** Brings down what changed and lays it over what the tablet has, in one transaction. */
export async function refresh(db: Database, office: Office, clock: () => number, name: AppName): Promise<RoundReply> {
  const cursor = (await readMeta(metaOf(db), 'cursor')) ?? '';
  const asked = clock();
  const reply = await office.round({ ...(await identity(db)), ...name }, cursor);
  const answered = clock();
  await keepRound(db, reply, Date.parse(reply.serverTime) - (asked + answered) / 2);
  return reply;
}

/** A visit that has left the round stays while an entry about it waits. */
export async function keepRound(db: Database, reply: RoundReply, skewMs: number): Promise<void> {
  const tx = db.transaction(['visits', 'operations', 'photos', 'meta'], 'readwrite', STRICT);
  const [visits, operations, photos, meta] = [tx.objectStore('visits'), tx.objectStore('operations'), tx.objectStore('photos'), tx.objectStore('meta')];
  for (const visit of reply.changed) await visits.put(visit);
  const about = await Promise.all((await photos.index('waiting').getAllKeys()).map((id) => operations.get(id)));
  const held = new Set([...reply.order, ...[...(await operations.index('waiting').getAll()), ...about].flatMap((k) => k?.visitId ?? [])]);
  for (const id of await visits.getAllKeys()) if (!held.has(id)) await visits.delete(id);
  for (let at = await operations.index('visit').openKeyCursor(null, 'nextunique'); at; at = await at.continue()) {
    if (held.has(at.key)) continue;
    for (const k of await operations.index('visit').getAll(at.key)) if (k.outcome === 'applied' || k.seen) await operations.delete(k.id);
  }
  await writeMeta(meta, { me: reply.me, cursor: reply.cursor, order: reply.order, appliedSeq: reply.lastSeq, refreshedAt: reply.serverTime, skewMs });
  await tx.done;
}
