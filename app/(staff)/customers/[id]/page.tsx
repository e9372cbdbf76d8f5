import type { Metadata } from 'next';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { can } from '@/lib/core/people/access';
import { pagesOf } from '@/lib/features/customer-pages/reads/page-link';
import { customerPage } from '@/lib/features/customers/reads/customers';
import { isId } from '@/lib/core/ids/is-id';
import { changesOf } from '@/lib/features/audit/reads/audit';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { asTyped, Facts, mailLink, phoneLink } from '@/app/_ui/tables/facts';
import { PutBack, TakeOff } from '@/app/_ui/forms/off-file';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { putCustomerBack, takeCustomerOff } from '../actions';
import { KitchensSheet } from './_components/kitchens-sheet';
import { PagesSheet } from './_components/pages-sheet';
import { SendingForm } from './_components/sending';
import { ChangeHistory } from '@/app/(staff)/_components/change-history';

export const metadata: Metadata = { title: 'Customer' };

export default definePage('read:equipment', async ({ db, actor, now, params }) => {
  const customer = isId(params.id) ? await customerPage(db, params.id) : null;
  if (!customer) notFound();
  const writes = can(actor, 'write:equipment');
  const off = customer.archivedAt !== null;
  const edits = writes && !off;
  return (
    <>
      <Trail items={[{ href: '/customers', label: 'Customers' }]} />
      <PageHead
        title={customer.name}
        actions={
          edits ? (
            <>
              <ButtonLink href={`/customers/${customer.id}/edit`}>Edit customer</ButtonLink>
              <ButtonLink href={`/kitchens/new?customer=${customer.id}`} look="primary">
                New kitchen
              </ButtonLink>
            </>
          ) : null
        }
      />
      {off ? (
        <PutBack
          id={customer.id}
          version={customer.version}
          what="customer"
          why="Its kitchens and units come back with it."
          action={putCustomerBack}
          may={writes}
        />
      ) : null}
      <div className="flex flex-col gap-6">
        <Contact customer={customer} />
        <KitchensSheet customer={customer} may={edits} now={now} />
        {can(actor, 'send:report') && !off ? <GoesOut customer={customer} may={can(actor, 'manage:shop')} /> : null}
        {edits ? (
          <PagesSheet
            customer={{ id: customer.id, email: customer.email, contactName: customer.contactName, language: customer.language }}
            kitchens={customer.kitchens.filter((k) => k.archivedAt === null).map(({ id, name }) => ({ id, name }))}
            pages={await pagesOf(db, customer.id)}
            timeZone={await shopTimeZone(db)}
            now={now}
          />
        ) : null}
        {edits ? (
          <TakeOff
            id={customer.id}
            version={customer.version}
            what="customer"
            action={takeCustomerOff}
            consequence="Its kitchens, units and tasks go out of use with it. Visits, findings and readings stay, and everything can be put back."
          />
        ) : null}
        {writes ? <ChangeHistory changes={await changesOf(db, 'Customer', customer.id)} timeZone={await shopTimeZone(db)} /> : null}
      </div>
    </>
  );
});

type Customer = NonNullable<Awaited<ReturnType<typeof customerPage>>>;

function Contact({ customer: { contactName, phone, email, notes } }: { customer: Customer }) {
  if (!contactName && !email && !phone && !notes) return null;
  return (
    <Sheet title="Contact">
      <Facts
        items={[
          ['Ask for', contactName],
          ['Phone', phoneLink(phone)],
          ['E-mail', mailLink(email)],
          ['Notes', asTyped(notes)],
        ]}
      />
    </Sheet>
  );
}

/** What is sent without a look; the owner says so. */
function GoesOut({ customer, may }: { customer: Customer; may: boolean }) {
  return (
    <Sheet title="Goes out by itself" aside={<Link href={`/customers/${customer.id}/quarter`}>Summary of a quarter</Link>}>
      {may ? (
        <SendingForm id={customer.id} reports={customer.sendsReports} quarters={customer.sendsQuarters} />
      ) : (
        <p>
          {sendsWords(customer)} <span className="text-soft">The owner says so here.</span>
        </p>
      )}
    </Sheet>
  );
}

function sendsWords({ sendsReports, sendsQuarters }: { sendsReports: boolean; sendsQuarters: boolean }): string {
  const sent = [sendsReports ? 'the report of each visit' : '', sendsQuarters ? 'the summary of each quarter' : ''].filter(Boolean);
  return sent.length === 0 ? 'Nothing: reports and summaries go out after a look.' : `Sent without a look: ${sent.join(' and ')}.`;
}
