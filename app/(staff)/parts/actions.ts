'use server';

import { refresh } from 'next/cache';
import { MovePart, PartFile, SavePart } from '@/lib/schemas/shop/parts';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { movePart as move } from '@/lib/features/parts/verbs/move-part';
import { importParts, savePart as save } from '@/lib/features/parts/verbs/save-parts';

export const savePart = defineFormAction('write:part', SavePart, async (ctx) => {
  await save(ctx, ctx.input);
  refresh();
});

export const takeInParts = defineFormAction('write:part', PartFile, async (ctx) => {
  const done = await importParts(ctx, ctx.input.csv);
  refresh();
  return done;
});

export const movePart = defineFormAction('write:part', MovePart, async (ctx) => {
  await move(ctx, ctx.input);
  refresh();
});
