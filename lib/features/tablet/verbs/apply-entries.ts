import 'server-only';
import type { Actor } from '../../../core/people/access';
import { ENTRY_VERSION, type EntryResult, type Stop, type SyncReply } from '../../../core/tablet';
import type { Db, Tx } from '../../../database/client';
import type { EntryEnvelope, SyncRequest } from '../../../schemas/tablet/entries';
import { answerTo, applyOne, type FiledEntry } from './apply-one';
import { lockDevice, type LockedDevice } from './device';
import { storable } from '../../../database/storable';
import { isAway, isFull } from '../../../database/transaction';
import { VisitDesk } from './visit-desk';

type Ctx = { db: Db; actor: Actor; now: Date; onUnexpected?: (error: unknown) => void };

/**
 * Takes in a batch of a device's entries, each exactly once and in the device's order, in one transaction. An entry
 * that cannot be filed undoes only itself; if the transaction is lost the device sends all of it again.
 * @throws AppError not_allowed
 */
export async function applyEntries(ctx: Ctx, request: SyncRequest): Promise<SyncReply> {
  const reply = await ctx.db.$transaction(
    async (tx) => {
      // A broken rule is to be the entry's fault, told at once, not the whole batch's at its end.
      await tx.$executeRaw`SET CONSTRAINTS visit_low_side_looked_at, visit_task_low_side_looked_at, visit_two_grades, visit_task_two_grades IMMEDIATE`;
      const device = await lockDevice(tx, ctx.actor, request.device, ctx.now);
      return takeIn(
        tx,
        ctx,
        device,
        storable([...request.entries]).sort((a, b) => a.seq - b.seq),
      );
    },
    { timeout: 120_000, maxWait: 20_000 },
  );
  await tiePictures(
    ctx.db,
    request.entries.filter((o) => o.kind === 'photo.attach').map((o) => o.id),
  );
  return reply;
}

/** A picture that arrived while its entry was being taken in saw no entry, and was not seen by it. */
async function tiePictures(db: Db, ids: readonly string[]): Promise<void> {
  if (ids.length > 0)
    await db.$executeRaw`UPDATE "Photo" p SET "fileId" = f.id FROM "StoredFile" f WHERE f.sha256 = p.sha256 AND p."fileId" IS NULL AND p.id = ANY(${[...ids]}::uuid[])`;
}

async function takeIn(tx: Tx, ctx: Ctx, device: LockedDevice, batch: readonly EntryEnvelope[]): Promise<SyncReply> {
  const resultsBefore = new Map<string, EntryResult>();
  for (const o of await tx.entry.findMany({ where: { id: { in: batch.map((e) => e.id) } } })) resultsBefore.set(o.id, answerTo(o));
  const desk = new VisitDesk(tx, device.userId);
  const results: EntryResult[] = [];
  const filed: FiledEntry[] = [];
  let { lastSeq } = device;
  let stopped: Stop | null = null;
  for (const envelope of batch) {
    const before = resultsBefore.get(envelope.id);
    if (before) {
      results.push(before);
      // Filed under an earlier identity of the tablet: it counts under this one too, or the next would never follow on.
      if (envelope.seq === lastSeq + 1) lastSeq = envelope.seq;
      continue;
    }
    stopped = outOfOrder(envelope, lastSeq);
    if (stopped) break;
    try {
      const { result, row, slip } = await applyOne(
        tx,
        { userId: device.userId, name: device.userName },
        device.id,
        desk,
        envelope,
        ctx.now,
      );
      if (slip !== null) ctx.onUnexpected?.(slip);
      resultsBefore.set(result.id, result);
      results.push(result);
      filed.push(row);
      lastSeq = envelope.seq;
    } catch (error) {
      // No entry's fault, and nothing of the batch is on file: its tablet hears of the house, not of its work.
      if (isAway(error) || isFull(error)) throw error;
      ctx.onUnexpected?.(error);
      stopped = 'unexpected';
      break;
    }
  }
  if (filed.length > 0) await tx.entry.createMany({ data: filed });
  if (lastSeq > device.lastSeq) await tx.device.update({ where: { id: device.id }, data: { lastSeq } });
  return { results, lastSeq, stopped };
}

function outOfOrder(envelope: EntryEnvelope, lastSeq: number): Stop | null {
  if (envelope.seq <= lastSeq) return 'renumber';
  if (envelope.seq > lastSeq + 1) return 'gap';
  return envelope.version > ENTRY_VERSION ? 'office_older' : null;
}
