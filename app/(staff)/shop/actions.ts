'use server';

import { refresh } from 'next/cache';
import { EditTaskKind, NewTaskKind } from '@/lib/schemas/rules';
import { EditShop } from '@/lib/schemas/shop';
import { defineFormAction } from '@/lib/server/define-action';
import { addTaskKind, editTaskKind } from '@/lib/services/rules/task-kinds';
import { editShop } from '@/lib/services/shop/edit-shop';

export const saveShop = defineFormAction('manage:shop', EditShop, async (ctx) => {
  await editShop(ctx, ctx.input);
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
