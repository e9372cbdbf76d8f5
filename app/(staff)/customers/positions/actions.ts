'use server';

import { refresh } from 'next/cache';
import { AppError } from '@/lib/core/errors';
import { AcceptPlaces, FindPlaces, Nothing, OneKitchen, SetPosition } from '@/lib/schemas/customers/kitchens';
import { defineCall, defineFormAction } from '@/lib/server/doors/define-action';
import { pace, placeFinder } from '@/lib/server/position/place-finder';
import { nudge } from '@/lib/server/process/queue';
import { acceptPlaces, findPlaces, queueLookups, refusePlace, stopLookups } from '@/lib/features/kitchens/verbs/look-up';
import { dropLearnt, takeLearnt } from '@/lib/features/kitchens/verbs/arrivals';
import { setPosition } from '@/lib/features/kitchens/verbs/set-position';

export const placeKitchen = defineFormAction('write:equipment', SetPosition, async (ctx) => {
  await setPosition(ctx, ctx.input);
  refresh();
});

const NOT_SET = () => new AppError('conflict', 'No place-finding service is set for this shop. See RIMEBOOK_GEOCODER in .env.example.');

/** For the address in a form, while its person waits. */
export const findAddress = defineCall('write:equipment', FindPlaces, async (ctx) => {
  const ask = placeFinder();
  if (!ask) throw NOT_SET();
  return findPlaces(ctx.db, ask, pace, ctx.input.address);
});

export const lookUpAll = defineCall('write:equipment', Nothing, async (ctx) => {
  if (!placeFinder()) throw NOT_SET();
  const queued = await queueLookups(ctx);
  await nudge('places');
  refresh();
  return { queued };
});

export const stopLookUp = defineCall('write:equipment', Nothing, async (ctx) => {
  await stopLookups(ctx);
  refresh();
});

export const acceptFound = defineCall('write:equipment', AcceptPlaces, async (ctx) => {
  const placed = await acceptPlaces(ctx, ctx.input.taken);
  refresh();
  return { placed };
});

export const refuseFound = defineCall('write:equipment', OneKitchen, async (ctx) => {
  await refusePlace(ctx, ctx.input);
  refresh();
});

export const acceptLearnt = defineCall('write:equipment', OneKitchen, async (ctx) => {
  await takeLearnt(ctx, ctx.input);
  refresh();
});

export const refuseLearnt = defineCall('write:equipment', OneKitchen, async (ctx) => {
  await dropLearnt(ctx, ctx.input);
  refresh();
});
