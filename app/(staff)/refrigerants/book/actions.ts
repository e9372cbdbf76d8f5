'use server';

import { refresh } from 'next/cache';
import { redirect } from 'next/navigation';
import {
  CylinderGone,
  CylinderPlace,
  NewCylinder,
  NewCylinderEntry,
  NewLeakTest,
  SetLeakRules,
  TakeEntryBack,
} from '@/lib/schemas/equipment/refrigerant-book';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { addCylinder, cylinderGone, enterWeighing, placeCylinder, takeEntryBack } from '@/lib/features/refrigerant-book/verbs/cylinders';
import { addLeakTest, setLeakRules } from '@/lib/features/refrigerant-book/verbs/leaks';

export const putCylinder = defineFormAction('write:refrigerant-book', NewCylinder, async (ctx) => {
  const { id } = await addCylinder(ctx, ctx.input);
  redirect(`/refrigerants/book/${id}`);
});

export const weigh = defineFormAction('write:refrigerant-book', NewCylinderEntry, async (ctx) => {
  await enterWeighing(ctx, ctx.input);
  refresh();
});

export const takeBack = defineFormAction('write:refrigerant-book', TakeEntryBack, async (ctx) => {
  await takeEntryBack(ctx, ctx.input);
  refresh();
});

export const gone = defineFormAction('write:refrigerant-book', CylinderGone, async (ctx) => {
  await cylinderGone(ctx, ctx.input);
  refresh();
});

export const place = defineFormAction('write:refrigerant-book', CylinderPlace, async (ctx) => {
  await placeCylinder(ctx, ctx.input);
  refresh();
});

export const saveLeakRules = defineFormAction('manage:shop', SetLeakRules, async (ctx) => {
  await setLeakRules(ctx, ctx.input);
  refresh();
});

export const testLeak = defineFormAction('write:refrigerant-book', NewLeakTest, async (ctx) => {
  await addLeakTest(ctx, ctx.input);
  refresh();
});
