import { defineRoute } from '@/lib/server/doors/define-route';
import { exportParts } from '@/lib/features/parts/verbs/save-parts';

/** The list of parts as a file that can come back in. */
export const GET = defineRoute(
  'export:equipment',
  async ({ db }) =>
    new Response(await exportParts({ db }), {
      headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': 'attachment; filename="parts.csv"' },
    }),
);
