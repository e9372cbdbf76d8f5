import type { RoundReply } from '../core/tablet';
import { metaOf, readMeta, STRICT, writeMeta, type Database } from './database';
import { settlePictures } from './held-pictures';
import { identity } from './identity';
import { OfficeError, type AppName, type Office } from './office';

/** Proxies cut addresses at 8 kB. */
const LONGEST_CURSOR = 6000;

/** Brings down what changed and lays it over what the tablet has, in one transaction. */
export async function refresh(db: Database, office: Office, clock: () => number, name: AppName): Promise<RoundReply> {
  const cursor = (await readMeta(metaOf(db), 'cursor')) ?? '';
  const asked = clock();
  const me = await identity(db);
  // It travels in the address; without it the office tells everything.
  const reply = await office.round({ ...me, ...name }, cursor.length > LONGEST_CURSOR ? '' : cursor);
  if (reply.me.userId !== me.holder) throw new OfficeError('not_allowed', 'The office takes this tablet for someone else’s.');
  const answered = clock();
  await keepRound(db, reply, Date.parse(reply.serverTime) - (asked + answered) / 2);
  return reply;
}

/** A visit that has left the round stays while an entry about it waits. */
export async function keepRound(db: Database, reply: RoundReply, skewMs: number): Promise<void> {
  const tx = db.transaction(['visits', 'operations', 'photos', 'meta'], 'readwrite', STRICT);
  const [visits, operations, photos, meta] = [
    tx.objectStore('visits'),
    tx.objectStore('operations'),
    tx.objectStore('photos'),
    tx.objectStore('meta'),
  ];
  for (const visit of reply.changed) await visits.put(visit);
  const about = await Promise.all((await photos.index('waiting').getAllKeys()).map((id) => operations.get(id)));
  const held = new Set([...reply.order, ...[...(await operations.index('waiting').getAll()), ...about].flatMap((k) => k?.visitId ?? [])]);
  for (const id of await visits.getAllKeys()) if (!held.has(id)) await visits.delete(id);
  await settlePictures(tx, reply, held);
  for (let at = await operations.index('visit').openKeyCursor(null, 'nextunique'); at; at = await at.continue()) {
    if (held.has(at.key)) continue;
    for (const k of await operations.index('visit').getAll(at.key)) if (k.outcome === 'applied' || k.seen) await operations.delete(k.id);
  }
  const lastMadeAt = (await readMeta(meta, 'lastMadeAt')) ?? 0;
  // With nothing waiting, a clock that once ran ahead is forgiven: no later entry need stand after its.
  if ((await operations.index('waiting').count()) === 0)
    await writeMeta(meta, { lastMadeAt: Math.min(lastMadeAt, Date.parse(reply.serverTime)) });
  await writeMeta(meta, {
    me: reply.me,
    cursor: reply.cursor,
    order: reply.order,
    appliedSeq: reply.lastSeq,
    refreshedAt: reply.serverTime,
    skewMs,
  });
  await tx.done;
}
