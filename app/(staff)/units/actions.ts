'use server';

import { refresh } from 'next/cache';
import { redirect } from 'next/navigation';
import { Archive, Restore } from '@/lib/schemas/customers';
import { EditRule, LockRule, NewTask, RemoveTask, ReviewChange, SettleFollowUp } from '@/lib/schemas/rules';
import { EditUnit, NewUnit } from '@/lib/schemas/units';
import { defineFormAction } from '@/lib/server/define-action';
import { archiveUnit, restoreUnit } from '@/lib/services/equipment/archive-unit';
import { createUnit } from '@/lib/services/equipment/create-unit';
import { editUnit } from '@/lib/services/equipment/edit-unit';
import { addTask } from '@/lib/services/rules/add-task';
import { editRule } from '@/lib/services/rules/edit-rule';
import { lockRule } from '@/lib/services/rules/lock-rule';
import { removeTask } from '@/lib/services/rules/remove-task';
import { reviewChange } from '@/lib/services/rules/review-change';
import { settleFollowUp as settle } from '@/lib/services/rules/settle-follow-up';

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

export const settleFollowUp = defineFormAction('settle:follow-up', SettleFollowUp, async (ctx) => {
  await settle(ctx, ctx.input);
  refresh();
});
