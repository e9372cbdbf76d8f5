import { ReportPaper } from '@/app/_ui/report/report-paper';
import { paperByLink } from '@/lib/features/reports/verbs/open-report';
import { defineRoute } from '@/lib/server/define-route';
import { pdfFile } from '@/lib/server/pdf';
import { throttle } from '@/lib/server/throttle';

export const dynamic = 'force-dynamic';

export const GET = defineRoute('public', async ({ db, now, params }) => {
  await throttle('report', 120);
  return pdfFile(<ReportPaper onFile={await paperByLink({ db, now }, params.token ?? '')} />, 'report');
});
