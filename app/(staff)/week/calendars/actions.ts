'use server';

import { revalidatePath } from 'next/cache';
import { FeedOf, FeedsFor } from '@/lib/schemas/people/feeds';
import { defineCall } from '@/lib/server/doors/define-action';
import { createFeed, createFeeds, revokeFeeds } from '@/lib/features/feeds/verbs/create-feed';

export const newAddress = defineCall('book:visit', FeedOf, async (ctx) => {
  const address = await createFeed(ctx, ctx.input);
  revalidatePath('/week/calendars');
  return address;
});

export const endAddress = defineCall('book:visit', FeedOf, async (ctx) => {
  await revokeFeeds(ctx, ctx.input);
  revalidatePath('/week/calendars');
});

export const newAddresses = defineCall('book:visit', FeedsFor, async (ctx) => {
  const rows = await createFeeds(ctx, ctx.input);
  revalidatePath('/week/calendars');
  return rows;
});
