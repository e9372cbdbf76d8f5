'use server';

import { refresh } from 'next/cache';
import { redirect } from 'next/navigation';
import { after } from 'next/server';
import { CheckFleet, RunFleet } from '@/lib/schemas/fleet-csv';
import { defineFormAction } from '@/lib/server/define-action';
import { log } from '@/lib/server/log';
import { checkImport } from '@/lib/features/fleet-csv/verbs/check-import';
import { runImport, startImport } from '@/lib/features/fleet-csv/verbs/run-import';

export const checkFleet = defineFormAction('import:equipment', CheckFleet, async (ctx) => {
  const { file, pasted } = ctx.input;
  const chosen = file && file.size > 0 ? file : null;
  const { runId } = await checkImport(ctx, {
    fileName: chosen?.name ?? 'Pasted lines',
    csv: chosen ? await chosen.text() : (pasted ?? ''),
  });
  redirect(`/customers/import/${runId}`);
});

export const runFleet = defineFormAction('import:equipment', RunFleet, async (ctx) => {
  const { db, actor, now, input } = ctx;
  await startImport(ctx, input.runId);
  // The writing goes on after the answer; the page asks how far it is.
  after(() => runImport({ db, actor, now }, input.runId).catch((err) => log.error({ err }, 'fleet import')));
  refresh();
});
