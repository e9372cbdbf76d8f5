import { defineRoute } from '@/lib/server/define-route';
import { exportFleet, exportName } from '@/lib/features/fleet-csv/verbs/export-fleet';

export const GET = defineRoute('export:equipment', async ({ db, actor, now }) => {
  const name = await exportName({ db, now });
  const pieces = exportFleet({ db, actor });
  const text = new ReadableStream<string>({
    async pull(to) {
      const { done, value } = await pieces.next();
      if (done) to.close();
      else to.enqueue(value);
    },
    cancel: () => void pieces.return(undefined),
  });
  return new Response(text.pipeThrough(new TextEncoderStream()), {
    headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': `attachment; filename="${name}"` },
  });
});
