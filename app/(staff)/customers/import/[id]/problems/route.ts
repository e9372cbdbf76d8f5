import { defineRoute } from '@/lib/server/doors/define-route';
import { importProblems } from '@/lib/features/fleet-csv/verbs/export-fleet';

export const GET = defineRoute('import:equipment', async ({ db, params }) => {
  const csv = await importProblems({ db }, params.id ?? '');
  return new Response(csv, {
    headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': 'attachment; filename="import-problems.csv"' },
  });
});
