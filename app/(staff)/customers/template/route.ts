import { defineRoute } from '@/lib/server/doors/define-route';
import { fleetTemplate } from '@/lib/features/fleet-csv/verbs/export-fleet';

export const GET = defineRoute(
  'import:equipment',
  async ({ db }) =>
    new Response(await fleetTemplate({ db }), {
      headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': 'attachment; filename="fleet-template.csv"' },
    }),
);
