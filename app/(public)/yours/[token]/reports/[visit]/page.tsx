import type { Metadata } from 'next';
import { languageOr, wordsIn } from '@/lib/core/customer-words';
import { isId } from '@/lib/core/ids/is-id';
import { reportOnPage } from '@/lib/features/customer-pages/reads/on-page';
import { customerReport } from '@/lib/features/reports/reads/customer-report';
import { openPage } from '@/lib/server/doors/customer-links';
import { definePage } from '@/lib/server/doors/define-page';
import { ReportPage } from '@/app/_ui/report/report-page';
import { DeadCustomerLink } from '../../../../_components/dead-customer-link';
import { Frame } from '../../_components/frame';

export const metadata: Metadata = { title: 'Service report', robots: { index: false }, referrer: 'same-origin' };

export default definePage('public', async ({ db, params, query }) => {
  const token = params.token ?? '';
  const page = await openPage(token);
  const id = params.visit;
  const language = languageOr(query.language, page?.language ?? 'en');
  const onFile = page && isId(id) && (await reportOnPage(db, page, id)) ? await customerReport(db, id, language) : null;
  if (!page || !onFile) return <DeadCustomerLink />;
  return (
    <Frame shop={{ name: '', phone: onFile.shop.phone }} language={language} token={token} back>
      <ReportPage
        report={onFile.report}
        shop={onFile.shop}
        pictureAt={(file) => `/yours/${token}/pictures/${file}`}
        actions={
          <p className="no-print">
            <a href={`/yours/${token}/reports/${id}/pdf?language=${language}`}>{wordsIn(language).page.pdf}</a>
          </p>
        }
      />
    </Frame>
  );
});
