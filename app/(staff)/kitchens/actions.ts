'use server';

import { refresh } from 'next/cache';
import { redirect } from 'next/navigation';
import { Archive, Restore } from '@/lib/schemas/customers/customers';
import { AnswerChange, EditKitchen, KitchenChanged, NewBlackout, NewKitchen, RemoveBlackout } from '@/lib/schemas/customers/kitchens';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { archiveKitchen, restoreKitchen } from '@/lib/features/kitchens/verbs/archive-kitchen';
import { answerChange } from '@/lib/features/intervals/verbs/answer-change';
import { kitchenChanged } from '@/lib/features/intervals/verbs/kitchen-changed';
import { addBlackout, removeBlackout } from '@/lib/features/kitchens/verbs/blackouts';
import { createKitchen } from '@/lib/features/kitchens/verbs/create-kitchen';
import { editKitchen } from '@/lib/features/kitchens/verbs/edit-kitchen';

export const addKitchen = defineFormAction('write:equipment', NewKitchen, async (ctx) => {
  const { kitchenId } = await createKitchen(ctx, ctx.input);
  redirect(`/kitchens/${kitchenId}`);
});

export const saveKitchen = defineFormAction('write:equipment', EditKitchen, async (ctx) => {
  await editKitchen(ctx, ctx.input);
  redirect(`/kitchens/${ctx.input.id}`);
});

export const takeKitchenOff = defineFormAction('write:equipment', Archive, async (ctx) => {
  await archiveKitchen(ctx, ctx.input);
  redirect(`/kitchens/${ctx.input.id}`);
});

export const putKitchenBack = defineFormAction('write:equipment', Restore, async (ctx) => {
  await restoreKitchen(ctx, ctx.input);
  redirect(`/kitchens/${ctx.input.id}`);
});

export const addClosedDays = defineFormAction('write:equipment', NewBlackout, async (ctx) => {
  const found = await addBlackout(ctx, ctx.input);
  refresh();
  return found;
});

export const sayKitchenChanged = defineFormAction('write:equipment', KitchenChanged, async (ctx) => {
  const kept = await kitchenChanged(ctx, ctx.input);
  refresh();
  return kept;
});

export const sayWhatChanged = defineFormAction('write:equipment', AnswerChange, async (ctx) => {
  await answerChange(ctx, ctx.input);
  refresh();
});

export const removeClosedDays = defineFormAction('write:equipment', RemoveBlackout, async (ctx) => {
  await removeBlackout(ctx, ctx.input.id);
  refresh();
});
