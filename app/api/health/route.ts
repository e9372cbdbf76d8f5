import { defineRoute } from '@/lib/server/doors/define-route';
import { ready } from '@/lib/server/process/health';

export const dynamic = 'force-dynamic';

/** Ready to serve: what a proxy asks before it sends anybody here. */
export const GET = defineRoute('public', async () => {
  const { ready: ok, ...parts } = await ready();
  return Response.json({ ok, ...parts }, { status: ok ? 200 : 503 });
});
