import { archiveProgress } from '@/lib/features/archive/verbs/fetch-archive';
import { defineRoute } from '@/lib/server/doors/define-route';

export const GET = defineRoute('export:everything', async ({ db, params }) =>
  Response.json(await archiveProgress(db, params.id ?? ''), { headers: { 'cache-control': 'no-store' } }),
);
