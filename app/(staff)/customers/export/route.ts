import { defineRoute } from '@/lib/server/define-route';
import { exportFleet } from '@/lib/features/fleet-csv/verbs/export-fleet';

export const GET = defineRoute('import:equipment', async ({ db, actor, now }) => {
  const day = now.toISOString().slice(0, 10);
  return new Response(await exportFleet({ db, actor }), {
    headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': `attachment; filename="fleet-${day}.csv"` },
  });
});
