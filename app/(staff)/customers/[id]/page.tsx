import type { Metadata } from 'next';
import Link from 'next/link';
import { notFound } from 'next/navigation';
import { can } from '@/lib/core/people/access';
import { todayIn } from '@/lib/core/calendar';
import { pagesOf } from '@/lib/features/customer-pages/reads/page-link';
import { customerPage } from '@/lib/features/customers/reads/customers';
import { toLocalDate } from '@/lib/core/calendar/date-column';
import { isId } from '@/lib/core/ids/is-id';
import { changesOf } from '@/lib/features/audit/reads/audit';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { definePage } from '@/lib/server/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { DueState } from '@/app/_ui/states/due-state';
import { Facts } from '@/app/_ui/tables/facts';
import { PutBack, TakeOff } from '@/app/_ui/forms/off-file';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { Trail } from '@/app/_ui/page/trail';
import { putCustomerBack, takeCustomerOff } from '../actions';
import { PagesSheet } from './_components/pages-sheet';
import { SendingForm } from './_components/sending';
import { ChangeHistory } from '@/app/(staff)/_components/change-history';

export const metadata: Metadata = { title: 'Customer' };

export default definePage('read:equipment', async ({ db, actor, now, params }) => {
  const customer = isId(params.id) ? await customerPage(db, params.id) : null;
  if (!customer) notFound();
  const writes = can(actor, 'write:equipment');
  const off = customer.archivedAt !== null;
  return (
    <>
      <Trail items={[{ href: '/customers', label: 'Customers' }]} />
      <PageHead
        title={customer.name}
        actions={
          writes && !off ? (
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
        {customer.contactName || customer.email || customer.phone || customer.notes ? (
          <Sheet title="Contact">
            <Facts
              items={[
                ['Ask for', customer.contactName],
                ['Phone', customer.phone ? <a href={`tel:${customer.phone}`}>{customer.phone}</a> : ''],
                ['E-mail', customer.email ? <a href={`mailto:${customer.email}`}>{customer.email}</a> : ''],
                ['Notes', customer.notes ? <span className="whitespace-pre-line">{customer.notes}</span> : ''],
              ]}
            />
          </Sheet>
        ) : null}
        <Sheet title="Kitchens">
          {customer.kitchens.length === 0 ? (
            <Empty action={writes && !off ? <ButtonLink href={`/kitchens/new?customer=${customer.id}`}>New kitchen</ButtonLink> : null}>
              A kitchen holds the units, the hours it can spare them, and how to get in.
            </Empty>
          ) : (
            <Table label={`Kitchens of ${customer.name}`}>
              <thead>
                <tr>
                  <Th>Kitchen</Th>
                  <Th className="max-md:hidden">Address</Th>
                  <Th className="text-right">Units</Th>
                  <Th>First due</Th>
                </tr>
              </thead>
              <tbody>
                {customer.kitchens.map((k) => (
                  <tr key={k.id} className="hover:bg-sunk">
                    <Td>
                      <Link href={`/kitchens/${k.id}`} className="font-bold">
                        {k.name}
                      </Link>
                      {k.archivedAt ? <span className="text-soft"> (out of use)</span> : null}
                    </Td>
                    <Td className="text-soft max-md:hidden">{k.address}</Td>
                    <Td className="text-right">{k.units}</Td>
                    <Td>
                      {k.soonest ? (
                        <DueState dueOn={toLocalDate(k.soonest)} today={todayIn(k.timeZone, now.getTime())} />
                      ) : (
                        <span className="text-soft">nothing</span>
                      )}
                    </Td>
                  </tr>
                ))}
              </tbody>
            </Table>
          )}
        </Sheet>
        {can(actor, 'send:report') && !off ? (
          <Sheet title="Goes out by itself" aside={<Link href={`/customers/${customer.id}/quarter`}>Summary of a quarter</Link>}>
            {can(actor, 'manage:shop') ? (
              <SendingForm id={customer.id} reports={customer.sendsReports} quarters={customer.sendsQuarters} />
            ) : (
              <p>
                {sendsWords(customer)} <span className="text-soft">The owner says so here.</span>
              </p>
            )}
          </Sheet>
        ) : null}
        {writes && !off ? (
          <PagesSheet
            customer={{ id: customer.id, email: customer.email, contactName: customer.contactName, language: customer.language }}
            kitchens={customer.kitchens.filter((k) => k.archivedAt === null).map(({ id, name }) => ({ id, name }))}
            pages={await pagesOf(db, customer.id)}
            timeZone={await shopTimeZone(db)}
            now={now}
          />
        ) : null}
        {writes && !off ? (
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

function sendsWords({ sendsReports, sendsQuarters }: { sendsReports: boolean; sendsQuarters: boolean }): string {
  const sent = [sendsReports ? 'the report of each visit' : '', sendsQuarters ? 'the summary of each quarter' : ''].filter(Boolean);
  return sent.length === 0 ? 'Nothing: reports and summaries go out after a look.' : `Sent without a look: ${sent.join(' and ')}.`;
}
