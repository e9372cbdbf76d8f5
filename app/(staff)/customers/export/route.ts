import { defineRoute } from '@/lib/server/define-route';
import { exportFleet, exportName } from '@/lib/features/fleet-csv/verbs/export-fleet';

export const GET = defineRoute('import:equipment', async ({ db, actor, now }) => {
  const name = await exportName({ db, now });
  return new Response(await exportFleet({ db, actor }), {
    headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': `attachment; filename="${name}"` },
  });
});
