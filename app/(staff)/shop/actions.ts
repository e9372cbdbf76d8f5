'use server';

import { refresh } from 'next/cache';
import { EditTaskKind, NewTaskKind } from '@/lib/schemas/visits/tasks';
import { EditShop, ReportLook, SetCosts, WeeklyLetter } from '@/lib/schemas/shop/shop';
import { followShop } from '@/lib/server/process/habits';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { addTaskKind, editTaskKind } from '@/lib/features/tasks/verbs/task-kinds';
import { setCosts } from '@/lib/features/shop/verbs/set-costs';
import { setReportLook } from '@/lib/features/shop/verbs/set-report-look';
import { setWeeklyLetter } from '@/lib/features/shop/verbs/set-weekly-letter';
import { editShop } from '@/lib/features/shop/verbs/edit-shop';

export const saveShop = defineFormAction('manage:shop', EditShop, async (ctx) => {
  await editShop(ctx, ctx.input);
  await followShop();
  refresh();
});

export const addKind = defineFormAction('manage:shop', NewTaskKind, async (ctx) => {
  await addTaskKind(ctx, ctx.input);
  refresh();
});

export const saveKind = defineFormAction('manage:shop', EditTaskKind, async (ctx) => {
  await editTaskKind(ctx, ctx.input);
  refresh();
});

export const saveCosts = defineFormAction('manage:shop', SetCosts, async (ctx) => {
  await setCosts(ctx, ctx.input);
  refresh();
});

export const saveReportLook = defineFormAction('manage:shop', ReportLook, async (ctx) => {
  await setReportLook(ctx, ctx.input);
  refresh();
});

export const saveWeekly = defineFormAction('manage:shop', WeeklyLetter, async (ctx) => {
  await setWeeklyLetter(ctx, ctx.input);
  refresh();
});
