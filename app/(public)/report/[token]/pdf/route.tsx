import { renderToBuffer } from '@react-pdf/renderer';
import { ReportPaper } from '@/app/_ui/report/report-paper';
import { paperByLink } from '@/lib/features/reports/verbs/open-report';
import { defineRoute } from '@/lib/server/define-route';
import { throttle } from '@/lib/server/throttle';

export const dynamic = 'force-dynamic';

export const GET = defineRoute('public', async ({ db, now, params }) => {
  await throttle('report', 120);
  const onFile = await paperByLink({ db, now }, params.token ?? '');
  const pdf = await renderToBuffer(<ReportPaper onFile={onFile} />);
  return new Response(new Uint8Array(pdf), {
    headers: {
      'content-type': 'application/pdf',
      'content-disposition': 'inline; filename="report.pdf"',
      'cache-control': 'private, no-store',
    },
  });
});
