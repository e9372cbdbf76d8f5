import { defineRoute } from '@/lib/server/define-route';

export const dynamic = 'force-dynamic';

export const GET = defineRoute('public', async ({ db }) => {
  await db.$queryRaw`SELECT 1`;
  return Response.json({ ok: true });
});
