import { defineRoute } from '@/lib/server/doors/define-route';
import { find } from '@/lib/features/find/verbs/find-records';

export const GET = defineRoute('read:equipment', async (ctx) => {
  const q = new URL(ctx.request.url).searchParams.get('q')?.slice(0, 80) ?? '';
  return Response.json(await find(ctx, q), { headers: { 'cache-control': 'no-store' } });
});
