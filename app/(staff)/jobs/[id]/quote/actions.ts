'use server';

import { redirect } from 'next/navigation';
import { SaveQuote, SendQuote } from '@/lib/schemas/jobs/quotes';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { nudge } from '@/lib/server/process/queue';
import { saveQuote as save } from '@/lib/features/jobs/verbs/save-quote';
import { sendQuote as send } from '@/lib/features/jobs/verbs/send-quote';

export const saveQuote = defineFormAction('write:job', SaveQuote, async (ctx) => {
  await save(ctx, ctx.input);
  redirect(`/jobs/${ctx.input.jobId}#quote`);
});

/** Gives the link back: it is not kept, and told only here. */
export const sendQuote = defineFormAction('write:job', SendQuote, async (ctx) => {
  const sent = await send(ctx, ctx.input);
  if (sent.mailed) await nudge('mail');
  return sent;
});
