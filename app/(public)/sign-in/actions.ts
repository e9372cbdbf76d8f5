'use server';

import { AskForLink, ChoosePassword } from '@/lib/schemas/people/people';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { throttle } from '@/lib/server/doors/throttle';
import { nudge } from '@/lib/server/process/queue';
import { askForPasswordLink, choosePassword } from '@/lib/features/people/verbs/password-links';

export const askForLink = defineFormAction('public', AskForLink, async (ctx) => {
  await throttle('forgotten', 10);
  await askForPasswordLink(ctx, ctx.input);
  await nudge('mail');
});

export const choose = defineFormAction('public', ChoosePassword, async (ctx) => {
  await throttle('password-link', 20);
  await choosePassword(ctx, ctx.input);
});
