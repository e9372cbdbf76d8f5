'use server';

import { refresh } from 'next/cache';
import { redirect } from 'next/navigation';
import { AnswerQuoteOnPage, AnswerVisit, AskToBeRung } from '@/lib/schemas/customers/customer-pages';
import { chooseTimeOnPage } from '@/lib/features/customer-pages/verbs/choose-time';
import { ChooseTimeOnPage } from '@/lib/schemas/jobs/quotes';
import { answerQuoteOnPage } from '@/lib/features/customer-pages/verbs/answer-quote';
import { answerVisit } from '@/lib/features/customer-pages/verbs/answer-visit';
import { askToBeRung } from '@/lib/features/customer-pages/verbs/ask-to-be-rung';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { nudge } from '@/lib/server/process/queue';
import { throttle } from '@/lib/server/doors/throttle';

export const confirmVisit = defineFormAction('public', AnswerVisit, async (ctx) => {
  await throttle('answer', 60);
  await answerVisit(ctx, ctx.input);
  refresh();
});

export const askOtherTime = defineFormAction('public', AnswerVisit, async (ctx) => {
  await throttle('answer', 60);
  await answerVisit(ctx, ctx.input);
  redirect(`/yours/${ctx.input.token}#visits`);
});

export const ringUs = defineFormAction('public', AskToBeRung, async (ctx) => {
  await throttle('ring', 10);
  await askToBeRung(ctx, ctx.input);
  await nudge('mail');
  return { urgency: ctx.input.urgency };
});

export const answerQuote = defineFormAction('public', AnswerQuoteOnPage, async (ctx) => {
  await throttle('answer', 60);
  await answerQuoteOnPage(ctx, ctx.input);
  refresh();
});

export const chooseTime = defineFormAction('public', ChooseTimeOnPage, async (ctx) => {
  await throttle('answer', 60);
  await chooseTimeOnPage(ctx, ctx.input);
  await nudge('mail');
  refresh();
});
