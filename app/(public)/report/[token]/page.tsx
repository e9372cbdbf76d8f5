import type { Metadata } from 'next';
import { wordsIn } from '@/lib/core/customer-words';
import { customerReport } from '@/lib/features/reports/reads/customer-report';
import { reportByLink } from '@/lib/features/reports/reads/report-link';
import { definePage } from '@/lib/server/doors/define-page';
import { countOpening, throttled } from '@/lib/server/doors/customer-links';
import { ReportPage } from '@/app/_ui/report/report-page';
import { DeadCustomerLink } from '../../_components/dead-customer-link';

export const metadata: Metadata = { title: 'Service report', robots: { index: false }, referrer: 'same-origin' };

export default definePage('public', async ({ db, now, params }) => {
  const token = params.token ?? '';
  const link = (await throttled('report', 120)) ? null : await reportByLink(db, token, now);
  const onFile = link && (await customerReport(db, link.visitId, link.language));
  if (!link || !onFile) return <DeadCustomerLink />;
  await countOpening(link.id);
  const say = wordsIn(onFile.report.language);
  return (
    <main className="mx-auto max-w-3xl px-5 py-10">
      <ReportPage
        report={onFile.report}
        shop={onFile.shop}
        pictureAt={(id) => `/report/${token}/pictures/${id}`}
        actions={
          <p className="no-print">
            <a href={`/report/${token}/pdf`}>{say.page.pdf}</a>
          </p>
        }
      />
    </main>
  );
});
