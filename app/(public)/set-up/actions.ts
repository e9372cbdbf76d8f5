'use server';

import { SetUp } from '@/lib/schemas/shop';
import { defineFormAction } from '@/lib/server/define-action';
import { setUpShop } from '@/lib/services/people/set-up';

export const setUp = defineFormAction('public', SetUp, async (ctx) => {
  await setUpShop(ctx, ctx.input);
  return { email: ctx.input.email };
});
