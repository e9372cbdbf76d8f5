'use server';

import { refresh } from 'next/cache';
import { RevokeQuarter, SendQuarter } from '@/lib/schemas/customers/quarters';
import { revokeQuarter, sendQuarter } from '@/lib/features/quarters/verbs/send-quarter';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { nudge } from '@/lib/server/process/queue';

export const sendIt = defineFormAction('send:report', SendQuarter, async (ctx) => {
  await sendQuarter(ctx, ctx.input);
  await nudge('mail');
  refresh();
});

export const takeBack = defineFormAction('send:report', RevokeQuarter, async (ctx) => {
  await revokeQuarter(ctx, ctx.input);
  refresh();
});
