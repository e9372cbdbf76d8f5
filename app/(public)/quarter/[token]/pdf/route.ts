import { quarterPaperByLink } from '@/lib/features/quarters/verbs/open-quarter';
import { defineRoute } from '@/lib/server/doors/define-route';
import { paperFile } from '@/lib/server/papers/on-thread';
import { throttle } from '@/lib/server/doors/throttle';

export const dynamic = 'force-dynamic';

export const GET = defineRoute('public', async ({ db, now, params }) => {
  await throttle('report', 120);
  const onFile = await quarterPaperByLink({ db, now }, params.token ?? '');
  return paperFile({ kind: 'quarter', onFile, language: onFile.report.language }, 'summary');
});
