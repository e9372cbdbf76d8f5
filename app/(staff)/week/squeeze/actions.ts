'use server';

import { SqueezeAsk, SqueezeTake } from '@/lib/schemas/visits/squeeze';
import { defineCall, defineFormAction } from '@/lib/server/doors/define-action';
import { nudge } from '@/lib/server/process/queue';
import { offerSqueeze } from '@/lib/features/planning/verbs/offer-squeeze';
import { squeezeEmergency } from '@/lib/features/visits/verbs/squeeze-in';

/** Looks for times and books nothing; gives back what was asked, so that what is taken is what was looked for. */
export const look = defineFormAction('book:visit', SqueezeAsk, async (ctx) => {
  const { kitchenId, jobId, unitIds, taskIds, what, minutes } = ctx.input;
  return { ask: { kitchenId, jobId, unitIds, taskIds, what, minutes }, answer: await offerSqueeze(ctx, ctx.input) };
});

export const take = defineCall('book:visit', SqueezeTake, async (ctx) => {
  const { visitId } = await squeezeEmergency(ctx, ctx.input);
  await nudge('mail');
  return { visitId };
});
