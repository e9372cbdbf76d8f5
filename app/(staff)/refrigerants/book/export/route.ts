import { defineRoute } from '@/lib/server/doors/define-route';
import { exportBook, exportChronic } from '@/lib/features/refrigerant-book/verbs/export-book';

export const GET = defineRoute('read:refrigerant-book', async ({ db, now, request }) => {
  const query = new URL(request.url).searchParams;
  const chronic = query.get('of') === 'chronic';
  const asked = Number(query.get('year'));
  const year = Number.isInteger(asked) && asked >= 2000 && asked <= 2200 ? asked : now.getUTCFullYear();
  const name = chronic ? 'chronic-leakers' : 'refrigerant-book';
  return new Response(chronic ? await exportChronic({ db, now }, year) : await exportBook({ db }, year), {
    headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': `attachment; filename="${name}-${year}.csv"` },
  });
});
