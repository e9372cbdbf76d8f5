import { defineRoute } from '@/lib/server/doors/define-route';
import { importProgress } from '@/lib/features/fleet-csv/verbs/import-progress';

export const GET = defineRoute('import:equipment', async ({ db, now, params }) =>
  Response.json(await importProgress({ db, now }, params.id ?? ''), { headers: { 'cache-control': 'no-store' } }),
);
