import { QuarterPaper } from '@/app/_ui/report/quarter-paper';
import { quarterPaperByLink } from '@/lib/features/quarters/verbs/open-quarter';
import { defineRoute } from '@/lib/server/doors/define-route';
import { onPaper, pdfFile } from '@/lib/server/papers/pdf';
import { throttle } from '@/lib/server/doors/throttle';

export const dynamic = 'force-dynamic';

export const GET = defineRoute('public', async ({ db, now, params }) => {
  await throttle('report', 120);
  const onFile = await quarterPaperByLink({ db, now }, params.token ?? '');
  return pdfFile(<QuarterPaper {...await onPaper(onFile, onFile.report.language)} />, 'summary');
});
