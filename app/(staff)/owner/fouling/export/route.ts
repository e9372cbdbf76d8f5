import { todayIn } from '@/lib/core/calendar';
import { foulingFilter } from '@/lib/core/owner/fouling-filter';
import { exportRanking } from '@/lib/features/owner/verbs/export-ranking';
import { defineRoute } from '@/lib/server/doors/define-route';

/** The ranking as it stands in the address, as CSV. */
export const GET = defineRoute('read:fouling', async ({ db, now, request }) => {
  const query = Object.fromEntries(new URL(request.url).searchParams);
  return new Response(await exportRanking({ db }, foulingFilter(query, todayIn('UTC', now.getTime()))), {
    headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': 'attachment; filename="fouling.csv"' },
  });
});
