import { ReportPaper } from '@/app/_ui/report/report-paper';
import { paperByLink } from '@/lib/features/reports/verbs/open-report';
import { defineRoute } from '@/lib/server/define-route';
import { onPaper, pdfFile } from '@/lib/server/pdf';
import { throttle } from '@/lib/server/throttle';

export const dynamic = 'force-dynamic';

export const GET = defineRoute('public', async ({ db, now, params }) => {
  await throttle('report', 120);
  const onFile = await paperByLink({ db, now }, params.token ?? '');
  return pdfFile(<ReportPaper {...await onPaper(onFile, onFile.report.language)} />, 'report');
});
