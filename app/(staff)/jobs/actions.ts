'use server';

import { refresh } from 'next/cache';
import { redirect } from 'next/navigation';
import { EditJob, JobStepTaken, PutOnVisit, TakeCall } from '@/lib/schemas/jobs/jobs';
import { AddWarranty } from '@/lib/schemas/shop/parts';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { putOnVisit as put } from '@/lib/features/jobs/verbs/book-job';
import { editJob as edit } from '@/lib/features/jobs/verbs/edit-job';
import { takeCall as take } from '@/lib/features/jobs/verbs/take-call';
import { addWarranty as cover } from '@/lib/features/parts/verbs/save-parts';
import { takeStep as step } from '@/lib/features/jobs/verbs/take-step';

/** What cannot wait for the next visit goes straight on to who can be there when. */
export const takeCall = defineFormAction('write:job', TakeCall, async (ctx) => {
  const { jobId } = await take(ctx, ctx.input);
  redirect(ctx.input.urgency === 'next_visit' ? `/jobs/${jobId}` : `/week/squeeze?job=${jobId}`);
});

export const takeStep = defineFormAction('write:job', JobStepTaken, async (ctx) => {
  await step(ctx, ctx.input);
  refresh();
});

export const editJob = defineFormAction('write:job', EditJob, async (ctx) => {
  await edit(ctx, ctx.input);
  refresh();
});

export const addWarranty = defineFormAction('write:job', AddWarranty, async (ctx) => {
  await cover(ctx, ctx.input);
  refresh();
});

export const putOnVisit = defineFormAction('write:job', PutOnVisit, async (ctx) => {
  await put(ctx, ctx.input);
  refresh();
});
