'use server';

import { CustomerReply } from '@/lib/schemas/customers/links';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { throttle } from '@/lib/server/doors/throttle';
import { reply } from '@/lib/features/links/verbs/reply';

export const answer = defineFormAction('public', CustomerReply, async (ctx) => {
  await throttle('reply', 20);
  await reply(ctx, ctx.input);
  return { answer: ctx.input.answer };
});
