import { defineRoute } from '@/lib/server/doors/define-route';
import { readFeed } from '@/lib/features/feeds/verbs/read-feed';

export const GET = defineRoute('public', async (ctx) => {
  const text = await readFeed(ctx, (ctx.params.token ?? '').replace(/\.ics$/, ''));
  return new Response(text, { headers: { 'content-type': 'text/calendar; charset=utf-8', 'cache-control': 'private, max-age=300' } });
});
