'use server';

import { revalidatePath } from 'next/cache';
import { FeedOf } from '@/lib/schemas/feeds';
import { defineCall } from '@/lib/server/define-action';
import { createFeed, revokeFeeds } from '@/lib/features/feeds/verbs/create-feed';

export const newAddress = defineCall('book:visit', FeedOf, async (ctx) => {
  const address = await createFeed(ctx, ctx.input);
  revalidatePath('/week/calendars');
  return address;
});

export const endAddress = defineCall('book:visit', FeedOf, async (ctx) => {
  await revokeFeeds(ctx, ctx.input);
  revalidatePath('/week/calendars');
});
