import { defineRoute } from '@/lib/server/doors/define-route';
import { throttle } from '@/lib/server/doors/throttle';
import { readFeed } from '@/lib/features/feeds/verbs/read-feed';

/** One address may ask for many people: whoever keeps calendars for others. */
const MOST = 600;

export const GET = defineRoute('public', async (ctx) => {
  await throttle('feed', MOST);
  const text = await readFeed(ctx, (ctx.params.token ?? '').replace(/\.ics$/, ''));
  return new Response(text, { headers: { 'content-type': 'text/calendar; charset=utf-8', 'cache-control': 'private, max-age=300' } });
});
