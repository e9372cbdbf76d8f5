import { defineRoute } from '@/lib/server/define-route';

export const dynamic = 'force-dynamic';

export const GET = defineRoute('public', async ({ db }) => {
  // eslint-disable-next-line no-restricted-syntax -- asks no model, only whether the database answers
  await db.$queryRaw`SELECT 1`;
  return Response.json({ ok: true });
});
