import { fetchArchive } from '@/lib/features/archive/verbs/fetch-archive';
import { todayIn } from '@/lib/core/calendar';
import { streamed } from '@/lib/server/answers/streamed';
import { defineRoute } from '@/lib/server/doors/define-route';

export const GET = defineRoute('export:everything', async (ctx) => {
  const { bytes, madeAt, pieces } = await fetchArchive(ctx, ctx.params.id ?? '');
  return new Response(streamed(pieces), {
    headers: {
      'content-type': 'application/zip',
      'content-length': String(bytes),
      'content-disposition': `attachment; filename="rimebook-everything-${todayIn('UTC', madeAt.getTime())}.zip"`,
      'cache-control': 'no-store',
    },
  });
});
