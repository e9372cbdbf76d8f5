'use server';

import { refresh } from 'next/cache';
import { ForgetTravel, TravelFile } from '@/lib/schemas/visits/travel';
import { defineCall, defineFormAction } from '@/lib/server/doors/define-action';
import { checkTravel } from '@/lib/features/planning/verbs/check-travel';
import { forgetTravel, replaceTravel } from '@/lib/features/planning/verbs/replace-travel';

/** Only looks at the lines. */
export const check = defineFormAction('plan:week', TravelFile, async (ctx) => {
  const { report } = await checkTravel(ctx, ctx.input.csv);
  return { report, csv: ctx.input.csv };
});

export const replace = defineCall('plan:week', TravelFile, async (ctx) => {
  const done = await replaceTravel(ctx, ctx.input.csv);
  refresh();
  return done;
});

export const forget = defineCall('plan:week', ForgetTravel, async (ctx) => {
  const done = await forgetTravel(ctx);
  refresh();
  return done;
});
