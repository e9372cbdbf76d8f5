import { defineRoute } from '@/lib/server/doors/define-route';
import { exportQuotes } from '@/lib/features/jobs/verbs/export-quotes';

/** Quotes line by line, for the shop's books. It carries customers' names and prices out, so it asks for the password again. */
export const GET = defineRoute(
  'export:equipment',
  async ({ db }) =>
    new Response(await exportQuotes({ db }), {
      headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': 'attachment; filename="quotes.csv"' },
    }),
);
