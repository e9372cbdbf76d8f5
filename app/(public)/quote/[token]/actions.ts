'use server';

import { refresh } from 'next/cache';
import { AnswerQuote } from '@/lib/schemas/quotes';
import { defineFormAction } from '@/lib/server/define-action';
import { throttle } from '@/lib/server/throttle';
import { answerQuote } from '@/lib/features/jobs/verbs/answer-quote';

export const answer = defineFormAction('public', AnswerQuote, async (ctx) => {
  await throttle('reply', 20);
  await answerQuote(ctx, ctx.input);
  refresh();
});
