import type { Metadata } from 'next';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { isLocalDate, todayIn } from '@/lib/core/calendar';
import { customerMonths } from '@/lib/core/calendar/when';
import { LANGUAGE_LABEL, LANGUAGES, languageOr } from '@/lib/core/customer-words';
import { isId } from '@/lib/core/ids/is-id';
import { quarterBefore, quarterOf } from '@/lib/core/reports/quarter';
import { customerToEdit } from '@/lib/features/customers/reads/customers';
import { quarterReport, quartersSent } from '@/lib/features/quarters/reads/quarter-report';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { definePage } from '@/lib/server/doors/define-page';
import { FileLink } from '@/app/_ui/buttons/button';
import { QuarterPage } from '@/app/_ui/report/quarter-page';
import { SentSoFar } from '@/app/_ui/report/sent-so-far';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { SendQuarterForm } from './_components/send-form';
import { takeBack } from './actions';

export const metadata: Metadata = { title: 'Summary of a quarter' };

export default definePage('send:report', async ({ db, now, params, query }) => {
  const customer = isId(params.id) ? await customerToEdit(db, params.id) : null;
  if (!customer) notFound();
  const zone = await shopTimeZone(db);
  const today = todayIn(zone, now.getTime());
  const asked = query.on && isLocalDate(query.on) ? quarterOf(query.on) : quarterBefore(today);
  const language = languageOr(query.language, customer.language);
  const onFile = await quarterReport(db, customer.id, asked, { now, language });
  if (!onFile) notFound();
  const sent = await quartersSent(db, customer.id, asked);
  const here = (on: string, tongue = language) => `?on=${on}&language=${tongue}`;
  const over = today >= asked.endsBefore;
  return (
    <>
      <Trail
        items={[
          { href: '/customers', label: 'Customers' },
          { href: `/customers/${customer.id}`, label: customer.name },
        ]}
      />
      <PageHead
        title="Summary of a quarter"
        lead="As the customer reads it. It follows what is on file: put right what is wrong there."
        actions={<FileLink href={`/customers/${customer.id}/quarter/pdf${here(asked.startsOn)}`}>As a PDF</FileLink>}
      />
      <p className="mb-4 flex flex-wrap gap-x-6 gap-y-1">
        <Link href={here(quarterBefore(asked.startsOn).startsOn)}>{customerMonths(quarterBefore(asked.startsOn).startsOn, 'en')}</Link>
        <b aria-current="page">{customerMonths(asked.startsOn, 'en')}</b>
        {over ? <Link href={here(asked.endsBefore)}>{customerMonths(asked.endsBefore, 'en')}</Link> : null}
        {LANGUAGES.filter((l) => l !== language).map((l) => (
          <Link key={l} href={here(asked.startsOn, l)}>
            Show it in {LANGUAGE_LABEL[l]}
          </Link>
        ))}
      </p>
      <div className="grid grid-cols-1 items-start gap-6 lg:grid-cols-[minmax(0,1fr)_22rem]">
        <Sheet>
          <QuarterPage report={onFile.report} shop={onFile.shop} />
        </Sheet>
        <div className="flex flex-col gap-6">
          <Sheet title="Send it">
            {over ? (
              <SendQuarterForm customerId={customer.id} quarter={asked.startsOn} email={customer.email} language={language} />
            ) : (
              <p className="text-soft">The quarter is not over yet; its summary is not whole.</p>
            )}
          </Sheet>
          <SentSoFar sent={sent} zone={zone} now={now} takeBack={takeBack} />
        </div>
      </div>
    </>
  );
});
