import type { Metadata } from 'next';
import { wordsIn } from '@/lib/core/customer-words';
import { quarterByLink, quarterReport } from '@/lib/features/quarters/reads/quarter-report';
import { countQuarterOpening, throttled } from '@/lib/server/doors/customer-links';
import { definePage } from '@/lib/server/doors/define-page';
import { QuarterPage } from '@/app/_ui/report/quarter-page';
import { DeadCustomerLink } from '../../_components/dead-customer-link';

export const metadata: Metadata = { title: 'Summary of the quarter', robots: { index: false }, referrer: 'same-origin' };

export default definePage('public', async ({ db, now, params }) => {
  const token = params.token ?? '';
  const link = (await throttled('report', 120)) ? null : await quarterByLink(db, token, now);
  const onFile = link && (await quarterReport(db, link.customerId, link.quarter, { now, language: link.language }));
  if (!link || !onFile) return <DeadCustomerLink />;
  await countQuarterOpening(link.id);
  return (
    <main className="mx-auto max-w-3xl px-5 py-10">
      <QuarterPage
        report={onFile.report}
        shop={onFile.shop}
        actions={
          <p className="no-print">
            <a href={`/quarter/${token}/pdf`}>{wordsIn(link.language).page.pdf}</a>
          </p>
        }
      />
    </main>
  );
});
