'use server';

import { refresh } from 'next/cache';
import { RevokeReport, SendReport } from '@/lib/schemas/customers/reports';
import { revokeReport, sendReport } from '@/lib/features/reports/verbs/send-report';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { nudge } from '@/lib/server/process/queue';

export const sendIt = defineFormAction('send:report', SendReport, async (ctx) => {
  await sendReport(ctx, ctx.input);
  await nudge('mail');
  refresh();
});

export const takeBack = defineFormAction('send:report', RevokeReport, async (ctx) => {
  await revokeReport(ctx, ctx.input);
  refresh();
});
