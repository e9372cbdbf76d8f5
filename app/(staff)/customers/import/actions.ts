'use server';

import { refresh } from 'next/cache';
import { redirect } from 'next/navigation';
import { after } from 'next/server';
import { CheckFleet, RunFleet, SheetChoice } from '@/lib/schemas/equipment/fleet-csv';
import { defineCall, defineFormAction } from '@/lib/server/doors/define-action';
import { env } from '@/lib/server/process/env';
import { log } from '@/lib/server/process/log';
import { onThread, type ImportWork } from '@/lib/features/fleet-csv/verbs/on-thread';
import { undoImport } from '@/lib/features/fleet-csv/verbs/undo-import';
import { startImport } from '@/lib/features/fleet-csv/verbs/run-import';

/** A zip by its first bytes: what a spreadsheet saves as .xlsx. */
const isWorkbook = (bytes: Uint8Array) => bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4;

export const checkFleet = defineFormAction('import:equipment', CheckFleet, async (ctx) => {
  const { file, pasted, kitchen } = ctx.input;
  const check = (given: Omit<Extract<ImportWork, { verb: 'check' }>, 'verb' | 'actor' | 'now'>) =>
    onThread(env().DATABASE_URL, { verb: 'check', actor: { userId: ctx.actor.userId }, now: ctx.now, ...given });
  const chosen = file && file.size > 0 ? file : null;
  const fileName = chosen?.name ?? 'Pasted lines';
  const bytes = chosen && new Uint8Array(await chosen.arrayBuffer());
  if (kitchen) redirect(`/customers/import/${await check({ fileName: 'Typed lines', lines: pasted ?? '', kitchenId: kitchen })}`);
  const given = bytes && isWorkbook(bytes) ? { bytes } : { csv: bytes ? new TextDecoder().decode(bytes) : (pasted ?? '') };
  redirect(`/customers/import/${await check({ fileName, ...given })}`);
});

export const runFleet = defineFormAction('import:equipment', RunFleet, async (ctx) => {
  const { actor, now, input } = ctx;
  await startImport(ctx, input.runId);
  // The writing goes on after the answer; the page asks how far it is.
  const work = { verb: 'run', actor: { userId: actor.userId }, now, runId: input.runId } as const;
  after(() => onThread(env().DATABASE_URL, work).catch((err: unknown) => log.error({ err }, 'fleet import')));
  refresh();
});

export const chooseSheet = defineCall('import:equipment', SheetChoice, async (ctx) => {
  await onThread(env().DATABASE_URL, { verb: 'choose', actor: { userId: ctx.actor.userId }, now: ctx.now, input: ctx.input });
  refresh();
});

export const takeBackFleet = defineFormAction('import:equipment', RunFleet, async (ctx) => {
  const taken = await undoImport(ctx, ctx.input.runId);
  refresh();
  return taken;
});
