import type { Metadata } from 'next';
import { languageOr, wordsIn } from '@/lib/core/customer-words';
import { quarterOnPage } from '@/lib/features/customer-pages/reads/on-page';
import { quarterReport } from '@/lib/features/quarters/reads/quarter-report';
import { openPage } from '@/lib/server/doors/customer-links';
import { definePage } from '@/lib/server/doors/define-page';
import { QuarterPage } from '@/app/_ui/report/quarter-page';
import { DeadCustomerLink } from '../../../../_components/dead-customer-link';
import { Frame } from '../../_components/frame';

export const metadata: Metadata = { title: 'Summary of the quarter', robots: { index: false }, referrer: 'same-origin' };

export default definePage('public', async ({ db, now, params, query }) => {
  const token = params.token ?? '';
  const page = await openPage(token);
  const quarter = page && (await quarterOnPage(db, page, params.quarter));
  const language = languageOr(query.language, page?.language ?? 'en');
  const onFile = quarter && (await quarterReport(db, page.customer.id, quarter, { now, language }));
  if (!onFile) return <DeadCustomerLink />;
  return (
    <Frame shop={{ name: '', phone: onFile.shop.phone }} language={language} token={token} back>
      <QuarterPage
        report={onFile.report}
        shop={onFile.shop}
        actions={
          <p className="no-print">
            <a href={`/yours/${token}/quarters/${quarter.startsOn}/pdf?language=${language}`}>{wordsIn(language).page.pdf}</a>
          </p>
        }
      />
    </Frame>
  );
});
