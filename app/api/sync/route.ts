import { AppError } from '@/lib/core/errors';
import { SyncRequest } from '@/lib/schemas/tablet/entries';
import { readJson } from '@/lib/server/doors/read-json';
import { defineRoute } from '@/lib/server/doors/define-route';
import { log } from '@/lib/server/process/log';
import { applyEntries } from '@/lib/features/tablet/verbs/apply-entries';

export const dynamic = 'force-dynamic';
/** Two hundred entries, a signature among them. */
const MOST_BYTES = 4_000_000;

export const POST = defineRoute('fill:visit:own', async ({ db, actor, now, request }) => {
  const parsed = SyncRequest.safeParse(await readJson(request, MOST_BYTES));
  if (!parsed.success) throw new AppError('invalid', 'What the tablet sent cannot be read. Nothing was taken in.');
  return Response.json(await applyEntries({ db, actor, now, onUnexpected: (err) => log.error({ err }, 'sync') }, parsed.data));
});
