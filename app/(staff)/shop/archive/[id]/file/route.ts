import { fetchArchive } from '@/lib/features/archive/verbs/fetch-archive';
import { todayIn } from '@/lib/core/calendar';
import { defineRoute } from '@/lib/server/doors/define-route';

export const GET = defineRoute('export:everything', async (ctx) => {
  const { bytes, madeAt, pieces } = await fetchArchive(ctx, ctx.params.id ?? '');
  const body = new ReadableStream<Uint8Array>({
    async pull(to) {
      const { done, value } = await pieces.next();
      if (done) to.close();
      else to.enqueue(value);
    },
    cancel: () => void pieces.return(undefined),
  });
  return new Response(body, {
    headers: {
      'content-type': 'application/zip',
      'content-length': String(bytes),
      'content-disposition': `attachment; filename="rimebook-everything-${todayIn('UTC', madeAt.getTime())}.zip"`,
      'cache-control': 'no-store',
    },
  });
});
