'use server';

import { redirect } from 'next/navigation';
import { AcceptPlan, PlanId, StartPlan } from '@/lib/schemas/visits/planning';
import { defineCall, defineFormAction } from '@/lib/server/doors/define-action';
import { nudge } from '@/lib/server/process/queue';
import { acceptPlan, undoPlan } from '@/lib/features/planning/verbs/accept-plan';
import { cancelPlan, startPlan } from '@/lib/features/planning/verbs/start-plan';

export const propose = defineFormAction('plan:week', StartPlan, async (ctx) => {
  const runId = await startPlan(ctx, ctx.input);
  await nudge('plan', { runId });
  redirect(`/week/plan/${runId}`);
});

export const stopSearch = defineCall('plan:week', PlanId, async (ctx) => {
  await cancelPlan(ctx, ctx.input.runId);
});

export const accept = defineCall('plan:week', AcceptPlan, async (ctx) => {
  const accepted = await acceptPlan(ctx, ctx.input);
  await nudge('mail');
  return accepted;
});

export const undo = defineCall('plan:week', PlanId, async (ctx) => {
  const undone = await undoPlan(ctx, ctx.input.runId);
  await nudge('mail');
  return undone;
});
