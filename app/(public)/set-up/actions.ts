'use server';

import { SetUp } from '@/lib/schemas/shop/shop';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { setUpCode } from '@/lib/server/people/set-up-code';
import { followShop } from '@/lib/server/process/habits';
import { throttle } from '@/lib/server/doors/throttle';
import { setUpShop } from '@/lib/features/people/verbs/set-up';

export const setUp = defineFormAction('public', SetUp, async (ctx) => {
  await throttle('set-up', 10);
  await setUpShop(ctx, ctx.input, setUpCode());
  await followShop();
  return { email: ctx.input.email };
});
