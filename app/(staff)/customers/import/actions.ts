'use server';

import { refresh } from 'next/cache';
import { redirect } from 'next/navigation';
import { after } from 'next/server';
import { CheckFleet, RunFleet, SheetChoice } from '@/lib/schemas/fleet-csv';
import { defineCall, defineFormAction } from '@/lib/server/define-action';
import { log } from '@/lib/server/log';
import { readWorkbook } from '@/lib/server/read-workbook';
import { checkImport } from '@/lib/features/fleet-csv/verbs/check-import';
import { chooseInSheet } from '@/lib/features/fleet-csv/verbs/choose';
import { undoImport } from '@/lib/features/fleet-csv/verbs/undo-import';
import { runImport, startImport } from '@/lib/features/fleet-csv/verbs/run-import';

/** A zip by its first bytes: what a spreadsheet saves as .xlsx. */
const isWorkbook = (bytes: Uint8Array) => bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4;

export const checkFleet = defineFormAction('import:equipment', CheckFleet, async (ctx) => {
  const { file, pasted } = ctx.input;
  const chosen = file && file.size > 0 ? file : null;
  const fileName = chosen?.name ?? 'Pasted lines';
  const bytes = chosen && new Uint8Array(await chosen.arrayBuffer());
  const { runId } = await checkImport(
    ctx,
    bytes && isWorkbook(bytes)
      ? { fileName, bytes, readWorkbook }
      : { fileName, csv: bytes ? new TextDecoder().decode(bytes) : (pasted ?? '') },
  );
  redirect(`/customers/import/${runId}`);
});

export const runFleet = defineFormAction('import:equipment', RunFleet, async (ctx) => {
  const { db, actor, now, input } = ctx;
  await startImport(ctx, input.runId);
  // The writing goes on after the answer; the page asks how far it is.
  after(() => runImport({ db, actor, now }, input.runId).catch((err) => log.error({ err }, 'fleet import')));
  refresh();
});

export const chooseSheet = defineCall('import:equipment', SheetChoice, async (ctx) => {
  await chooseInSheet(ctx, ctx.input);
  refresh();
});

export const takeBackFleet = defineFormAction('import:equipment', RunFleet, async (ctx) => {
  const taken = await undoImport(ctx, ctx.input.runId);
  refresh();
  return taken;
});
