'use server';

import { refresh } from 'next/cache';
import { z } from 'zod';
import { FreeText } from '@/lib/schemas/values/fields';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { settleEntry } from '@/lib/features/entries/verbs/settle-entry';

const SettleEntry = z.object({ entryId: z.uuid(), note: FreeText(500) });

export const settle = defineFormAction('settle:entry', SettleEntry, async (ctx) => {
  await settleEntry(ctx, ctx.input);
  refresh();
});
