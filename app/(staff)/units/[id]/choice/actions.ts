'use server';

import { refresh } from 'next/cache';
import { decideUnit, lookAgain } from '@/lib/features/choices/verbs/decide-unit';
import { DecideUnit, LookAgain } from '@/lib/schemas/equipment/choices';
import { defineFormAction } from '@/lib/server/doors/define-action';

export const decideWay = defineFormAction('decide:unit', DecideUnit, async (ctx) => {
  await decideUnit(ctx, ctx.input);
  refresh();
});

export const judgeAgain = defineFormAction('decide:unit', LookAgain, async (ctx) => {
  await lookAgain(ctx, ctx.input);
  refresh();
});
