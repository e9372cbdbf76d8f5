import { ReportPaper } from '@/app/_ui/report/report-paper';
import { paperByLink } from '@/lib/features/reports/verbs/open-report';
import { pictures } from '@/lib/server/process/pictures';
import { defineRoute } from '@/lib/server/doors/define-route';
import { onPaper, pdfFile } from '@/lib/server/papers/pdf';
import { throttle } from '@/lib/server/doors/throttle';

export const dynamic = 'force-dynamic';

export const GET = defineRoute('public', async ({ db, now, params }) => {
  await throttle('report', 120);
  const onFile = await paperByLink({ db, now, pictures: pictures() }, params.token ?? '');
  return pdfFile(<ReportPaper {...await onPaper(onFile, onFile.report.language)} />, 'report');
});
