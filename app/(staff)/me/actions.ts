'use server';

import { refresh } from 'next/cache';
import { z } from 'zod';
import { secondStepKey } from '@/lib/server/people/second-step-key';
import { stopAskingOwners } from '@/lib/features/people/verbs/owners-code';
import { confirmSecondStep, dropSecondStep } from '@/lib/features/people/verbs/second-step';
import { ChangePassword, ConfirmSecondStep, EndMySession, MyArrivals, MyUnits, ProveIt } from '@/lib/schemas/people/people';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { endSession } from '@/lib/features/people/verbs/end-session';
import { proveIt } from '@/lib/features/people/verbs/prove-it';
import { setMyArrivals } from '@/lib/features/people/verbs/my-arrivals';
import { setMyUnits } from '@/lib/features/people/verbs/my-units';
import { changePassword } from '@/lib/features/people/verbs/set-password';

export const saveMyUnits = defineFormAction('edit:self', MyUnits, async (ctx) => {
  await setMyUnits(ctx, ctx.input);
  refresh();
});

export const saveMyArrivals = defineFormAction('edit:self', MyArrivals, async (ctx) => {
  await setMyArrivals(ctx, ctx.input.sharesArrivals);
  refresh();
});

export const changeMyPassword = defineFormAction('edit:self', ChangePassword, async (ctx) => {
  await changePassword(ctx, ctx.input);
  refresh();
});

export const endMySession = defineFormAction('edit:self', EndMySession, async (ctx) => {
  await endSession(ctx, { userId: ctx.actor.userId, sessionId: ctx.input.sessionId });
  refresh();
});

export const prove = defineFormAction('edit:self', ProveIt, (ctx) => proveIt(ctx, ctx.input));

export const startStep = defineFormAction('secure:self', ConfirmSecondStep, (ctx) => confirmSecondStep(ctx, ctx.input, secondStepKey()));

/** For an owner who has no telephone at hand; who is asked then goes on without. */
export const goOnWithout = defineFormAction('secure:self', z.object({}), (ctx) => stopAskingOwners(ctx));

export const dropStep = defineFormAction('secure:self', z.object({}), async (ctx) => {
  await dropSecondStep(ctx);
  refresh();
});
