import { defineRoute } from '@/lib/server/define-route';
import { findRecords } from '@/lib/features/find/reads/find';

export const GET = defineRoute('read:equipment', async ({ db, request }) => {
  const q = new URL(request.url).searchParams.get('q')?.slice(0, 80) ?? '';
  return Response.json({ hits: await findRecords(db, q) }, { headers: { 'cache-control': 'no-store' } });
});
