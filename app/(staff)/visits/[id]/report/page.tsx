import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { LANGUAGES, type Language } from '@/lib/core/customer-words';
import { isId } from '@/lib/core/ids/is-id';
import { changesOf } from '@/lib/features/audit/reads/audit';
import { customerReport, reportsSent } from '@/lib/features/reports/reads/customer-report';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { definePage } from '@/lib/server/doors/define-page';
import { ReportPage } from '@/app/_ui/report/report-page';
import { FileLink } from '@/app/_ui/buttons/button';
import { SentSoFar } from '@/app/_ui/report/sent-so-far';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { ChangeHistory } from '@/app/(staff)/_components/change-history';
import { SendForm } from './_components/send-form';
import { takeBack } from './actions';

export const metadata: Metadata = { title: 'Report for the customer' };

const asLanguage = (text: string | undefined): Language | undefined => LANGUAGES.find((l) => l === text);

export default definePage('send:report', async ({ db, now, params, query }) => {
  const onFile = isId(params.id) ? await customerReport(db, params.id, asLanguage(query.language)) : null;
  if (!onFile) notFound();
  const [sent, zone] = await Promise.all([reportsSent(db, onFile.visit.id), shopTimeZone(db)]);
  const { language } = onFile.report;
  return (
    <>
      <Trail items={[{ href: `/visits/${onFile.visit.id}`, label: 'What was found' }]} />
      <PageHead
        title="Report for the customer"
        lead="As the customer reads it. It follows what is on file: put right what is wrong there."
        actions={<FileLink href={`/visits/${onFile.visit.id}/report/pdf?language=${language}`}>As a PDF</FileLink>}
      />
      <div className="grid grid-cols-1 items-start gap-6 lg:grid-cols-[minmax(0,1fr)_22rem]">
        <Sheet>
          <ReportPage report={onFile.report} shop={onFile.shop} pictureAt={(id) => `/api/files/${id}`} />
        </Sheet>
        <div className="flex flex-col gap-6">
          <Sheet title="Send it">
            {onFile.visit.closed ? (
              <SendForm visitId={onFile.visit.id} email={onFile.customer.email} language={language} />
            ) : (
              <p className="text-soft">The visit is not closed yet; its report is not whole.</p>
            )}
          </Sheet>
          <SentSoFar sent={sent} zone={zone} now={now} takeBack={takeBack} />
        </div>
      </div>
      <ChangeHistory changes={await changesOf(db, 'Visit', onFile.visit.id)} timeZone={zone} />
    </>
  );
});
