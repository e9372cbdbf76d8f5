'use server';

import { refresh } from 'next/cache';
import { redirect } from 'next/navigation';
import { Archive, Restore } from '@/lib/schemas/customers/customers';
import { EditRule, LockRule, NewTask, RemoveTask, ReviewChange, SettleJob } from '@/lib/schemas/visits/tasks';
import { EditUnit, NewUnit } from '@/lib/schemas/equipment/equipment';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { archiveUnit, restoreUnit } from '@/lib/features/equipment/verbs/archive-unit';
import { createUnit } from '@/lib/features/equipment/verbs/create-unit';
import { editUnit } from '@/lib/features/equipment/verbs/edit-unit';
import { addTask } from '@/lib/features/tasks/verbs/add-task';
import { editRule } from '@/lib/features/tasks/verbs/edit-rule';
import { lockRule } from '@/lib/features/tasks/verbs/lock-rule';
import { removeTask } from '@/lib/features/tasks/verbs/remove-task';
import { reviewChange } from '@/lib/features/intervals/verbs/review-change';
import { settleJob as settle } from '@/lib/features/jobs/verbs/settle-job';

export const addUnit = defineFormAction('write:equipment', NewUnit, async (ctx) => {
  const { unitId } = await createUnit(ctx, ctx.input);
  redirect(`/units/${unitId}`);
});

export const saveUnit = defineFormAction('write:equipment', EditUnit, async (ctx) => {
  await editUnit(ctx, ctx.input);
  redirect(`/units/${ctx.input.id}`);
});

export const takeUnitOff = defineFormAction('write:equipment', Archive, async (ctx) => {
  await archiveUnit(ctx, ctx.input);
  redirect(`/units/${ctx.input.id}`);
});

export const putUnitBack = defineFormAction('write:equipment', Restore, async (ctx) => {
  await restoreUnit(ctx, ctx.input);
  redirect(`/units/${ctx.input.id}`);
});

export const addUnitTask = defineFormAction('write:rules', NewTask, async (ctx) => {
  await addTask(ctx, ctx.input);
  refresh();
});

export const saveRule = defineFormAction('write:rules', EditRule, async (ctx) => {
  await editRule(ctx, ctx.input);
  refresh();
});

export const setLock = defineFormAction('write:rules', LockRule, async (ctx) => {
  await lockRule(ctx, ctx.input);
  refresh();
});

export const takeTaskOff = defineFormAction('write:rules', RemoveTask, async (ctx) => {
  await removeTask(ctx, ctx.input);
  refresh();
});

export const review = defineFormAction('overrule:rules', ReviewChange, async (ctx) => {
  await reviewChange(ctx, ctx.input);
  refresh();
});

export const settleJob = defineFormAction('write:job', SettleJob, async (ctx) => {
  await settle(ctx, ctx.input);
  refresh();
});
