import { defineRoute } from '@/lib/server/doors/define-route';
import { exportBook } from '@/lib/features/refrigerant-book/verbs/export-book';

export const GET = defineRoute('read:refrigerant-book', async ({ db, now, request }) => {
  const asked = Number(new URL(request.url).searchParams.get('year'));
  const year = Number.isInteger(asked) && asked >= 2000 && asked <= 2200 ? asked : now.getUTCFullYear();
  return new Response(await exportBook({ db }, year), {
    headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': `attachment; filename="refrigerant-book-${year}.csv"` },
  });
});
