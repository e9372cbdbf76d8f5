import { defineRoute } from '@/lib/server/define-route';
import { exportQuotes } from '@/lib/features/jobs/verbs/export-quotes';

/** Quotes line by line, for the shop's books. */
export const GET = defineRoute(
  'write:job',
  async ({ db }) =>
    new Response(await exportQuotes({ db }), {
      headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': 'attachment; filename="quotes.csv"' },
    }),
);
