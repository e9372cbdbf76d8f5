import { defineRoute } from '@/lib/server/doors/define-route';
import { travelTemplate } from '@/lib/features/planning/verbs/travel-template';

export const GET = defineRoute(
  'plan:week',
  async ({ db }) =>
    new Response(await travelTemplate({ db }), {
      headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': 'attachment; filename="driving-minutes.csv"' },
    }),
);
