import { renderToBuffer } from '@react-pdf/renderer';
import { ReportPaper } from '@/app/_ui/report/report-paper';
import { LANGUAGES } from '@/lib/core/customer-words';
import { AppError } from '@/lib/core/errors';
import { isId } from '@/lib/core/ids/is-id';
import { paperOfVisit } from '@/lib/features/reports/verbs/open-report';
import { defineRoute } from '@/lib/server/define-route';

export const dynamic = 'force-dynamic';

export const GET = defineRoute('send:report', async ({ db, request, params }) => {
  if (!isId(params.id)) throw new AppError('not_found', 'That visit is not on file.');
  const asked = new URL(request.url).searchParams.get('language');
  const onFile = await paperOfVisit(
    { db },
    params.id,
    LANGUAGES.find((l) => l === asked),
  );
  const pdf = await renderToBuffer(<ReportPaper onFile={onFile} />);
  return new Response(new Uint8Array(pdf), {
    headers: { 'content-type': 'application/pdf', 'content-disposition': 'inline; filename="report.pdf"', 'cache-control': 'no-store' },
  });
});
