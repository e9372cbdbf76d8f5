'use server';

import { SetUp } from '@/lib/schemas/shop';
import { defineFormAction } from '@/lib/server/define-action';
import { setUpShop } from '@/lib/features/people/verbs/set-up';

export const setUp = defineFormAction('public', SetUp, async (ctx) => {
  await setUpShop(ctx, ctx.input);
  return { email: ctx.input.email };
});
