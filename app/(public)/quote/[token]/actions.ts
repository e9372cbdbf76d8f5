'use server';

import { refresh } from 'next/cache';
import { AnswerQuote, ChooseTime } from '@/lib/schemas/jobs/quotes';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { throttle } from '@/lib/server/doors/throttle';
import { answerQuote } from '@/lib/features/jobs/verbs/answer-quote';
import { chooseTime } from '@/lib/features/jobs/verbs/choose-time';
import { nudge } from '@/lib/server/process/queue';

export const answer = defineFormAction('public', AnswerQuote, async (ctx) => {
  await throttle('reply', 20);
  await answerQuote(ctx, ctx.input);
  refresh();
});

export const choose = defineFormAction('public', ChooseTime, async (ctx) => {
  await throttle('reply', 20);
  await chooseTime(ctx, ctx.input);
  await nudge('mail');
  refresh();
});
