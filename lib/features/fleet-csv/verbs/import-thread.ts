import { parentPort, workerData } from 'node:worker_threads';
import { isAppError } from '../../../core/errors';
import { connect } from '../../../database/client';
import { checkImport } from './check-import';
import { chooseInSheet } from './choose';
import type { ImportWork, Said } from './on-thread';
import { runImport } from './run-import';
import { giveWay } from '../../give-way';

// Twenty thousand rows keep one core busy for seconds: here nobody waits for it.
giveWay();
const { url, ...work } = workerData as ImportWork & { url: string };
const db = connect(url, 2);

async function done(): Promise<Said> {
  const ctx = { db, actor: work.actor, now: work.now };
  if (work.verb === 'choose') {
    await chooseInSheet(ctx, work.input);
    return { runId: work.input.runId };
  }
  if (work.verb === 'run') {
    await runImport(ctx, work.runId);
    return { runId: work.runId };
  }
  const { fileName, csv, bytes, lines, kitchenId } = work;
  if (lines !== undefined && kitchenId !== undefined) return checkImport(ctx, { fileName, lines, kitchenId });
  return checkImport(ctx, bytes ? { fileName, bytes } : { fileName, csv: csv ?? '' });
}

try {
  parentPort?.postMessage(await done());
} catch (e) {
  const said: Said = isAppError(e) ? { refused: { code: e.code, message: e.message, field: e.field } } : { failed: String(e) };
  parentPort?.postMessage(said);
} finally {
  await db.$disconnect();
}
