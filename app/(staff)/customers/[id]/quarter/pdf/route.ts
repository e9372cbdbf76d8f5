import { quarterPaper } from '@/lib/features/quarters/verbs/open-quarter';
import { defineRoute } from '@/lib/server/doors/define-route';
import { paperFile } from '@/lib/server/papers/on-thread';

export const dynamic = 'force-dynamic';

export const GET = defineRoute('send:report', async ({ db, now, request, params }) => {
  const query = new URL(request.url).searchParams;
  const onFile = await quarterPaper({ db, now }, { id: params.id, on: query.get('on'), language: query.get('language') });
  return paperFile({ kind: 'quarter', onFile, language: onFile.report.language }, 'summary');
});
