import { roundShell } from '@/lib/server/round-app';

// A shell without data, the same for everyone and kept on the tablet; what it shows comes from guarded routes.
export const dynamic = 'force-static';

export async function GET() {
  return new Response(await roundShell(), { headers: { 'content-type': 'text/html; charset=utf-8', 'cache-control': 'no-cache' } });
}
