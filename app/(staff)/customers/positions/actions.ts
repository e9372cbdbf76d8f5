'use server';

import { refresh } from 'next/cache';
import { SetPosition } from '@/lib/schemas/kitchens';
import { defineFormAction } from '@/lib/server/define-action';
import { setPosition } from '@/lib/features/kitchens/verbs/set-position';

export const placeKitchen = defineFormAction('write:equipment', SetPosition, async (ctx) => {
  await setPosition(ctx, ctx.input);
  refresh();
});
