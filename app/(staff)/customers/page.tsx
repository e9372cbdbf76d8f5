import type { Metadata } from 'next';
import Link from 'next/link';
import { can } from '@/lib/core/people/access';
import { counted } from '@/lib/core/wording/counted';
import { UNIT_KIND_LABEL } from '@/lib/core/equipment/build';
import { findPlaces, fleetCounts, listCustomers } from '@/lib/features/customers/reads/customers';
import { isId } from '@/lib/core/ids/is-id';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink, FileLink } from '@/app/_ui/buttons/button';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { SearchForm } from './_components/search-form';
import { kitchenInFull } from '@/lib/core/wording/kitchen-name';

export const metadata: Metadata = { title: 'Kitchens' };

const PAGE = 50;

export default definePage('read:equipment', async ({ db, actor, now, query }) => {
  const q = query.q?.trim().slice(0, 80) || undefined;
  const archived = query.archived === '1';
  const after = query.name !== undefined && isId(query.after) ? { name: query.name, id: query.after } : undefined;
  const [counts, rows, found] = await Promise.all([
    fleetCounts(db),
    listCustomers(db, { q, archived, after, limit: PAGE + 1, now }),
    q && !after ? findPlaces(db, q) : null,
  ]);
  const shown = rows.slice(0, PAGE);
  const last = shown[shown.length - 1];
  const more = rows.length > PAGE && last ? `/customers?${nextPage(q, archived, last)}` : null;
  const writes = can(actor, 'write:equipment');

  return (
    <>
      <PageHead
        title={archived ? 'Customers out of use' : 'Customers and their kitchens'}
        lead={`${counted(counts.customers, 'customer')}, ${counted(counts.kitchens, 'kitchen')}, ${counted(counts.units, 'unit')} on file.`}
        actions={
          writes ? (
            <>
              <ButtonLink href="/customers/import">Bring in a sheet</ButtonLink>
              <FileLink href="/customers/export">Export as CSV</FileLink>
              <ButtonLink href="/customers/new" look="primary">
                New customer
              </ButtonLink>
            </>
          ) : null
        }
      />
      <SearchForm q={q} archived={archived} />
      {found ? <Found found={found} /> : null}
      {shown.length === 0 ? (
        <Nobody q={q} archived={archived} writes={writes} />
      ) : (
        <Table label="Customers">
          <thead>
            <tr>
              <Th>Customer</Th>
              <Th className="max-md:hidden">First kitchen&rsquo;s address</Th>
              <Th className="text-right">Kitchens</Th>
              <Th className="text-right">Units</Th>
              <Th className="text-right">Tasks overdue</Th>
            </tr>
          </thead>
          <tbody>
            {shown.map((c) => (
              <tr key={c.id} className="hover:bg-sunk">
                <Td>
                  <Link href={`/customers/${c.id}`} className="font-bold">
                    {c.name}
                  </Link>
                </Td>
                <Td className="text-soft max-md:hidden">{c.address}</Td>
                <Td className="text-right">{c.kitchens}</Td>
                <Td className="text-right">{c.units}</Td>
                <Td className="text-right">
                  {c.overdue ? (
                    <State shape="late" tone="alarm">
                      {c.overdue}
                    </State>
                  ) : (
                    <span className="text-soft">none</span>
                  )}
                </Td>
              </tr>
            ))}
          </tbody>
        </Table>
      )}
      {more ? (
        <p className="mt-4">
          <ButtonLink href={more}>More customers</ButtonLink>
        </p>
      ) : null}
    </>
  );
});

const nextPage = (q: string | undefined, archived: boolean, last: { id: string; name: string }) =>
  new URLSearchParams({ ...(q && { q }), ...(archived && { archived: '1' }), name: last.name, after: last.id });

/** Kitchens and units of the name that was looked for. */
function Found({ found }: { found: Awaited<ReturnType<typeof findPlaces>> }) {
  if (found.kitchens.length + found.units.length === 0) return null;
  return (
    <div className="mb-6 grid grid-cols-1 gap-4 md:grid-cols-2">
      <Sheet title="Kitchens">
        <ul>
          {found.kitchens.map((k) => (
            <li key={k.id} className="py-1">
              <Link href={`/kitchens/${k.id}`} className="font-bold">
                {k.name}
              </Link>{' '}
              <span className="text-soft">
                {k.customer}
                {k.address ? `, ${k.address}` : ''}
              </span>
            </li>
          ))}
          {found.kitchens.length === 0 ? <li className="text-soft">None of this name.</li> : null}
        </ul>
      </Sheet>
      <Sheet title="Units">
        <ul>
          {found.units.map((u) => (
            <li key={u.id} className="py-1">
              <Link href={`/units/${u.id}`} className="font-bold">
                {u.name}
              </Link>{' '}
              <span className="text-soft">
                {u.tag}, {UNIT_KIND_LABEL[u.kind]}, {kitchenInFull(u)}
              </span>
            </li>
          ))}
          {found.units.length === 0 ? <li className="text-soft">None of this name or tag.</li> : null}
        </ul>
      </Sheet>
    </div>
  );
}

function Nobody({ q, archived, writes }: { q: string | undefined; archived: boolean; writes: boolean }) {
  if (q) return <Empty>{`No customer, kitchen or unit has “${q}” in its name. Try a shorter piece of it.`}</Empty>;
  if (archived) return <Empty>Nothing has been taken out of use.</Empty>;
  const first = (
    <>
      <ButtonLink href="/customers/new" look="primary">
        New customer
      </ButtonLink>
      <ButtonLink href="/customers/import">Bring in a sheet</ButtonLink>
    </>
  );
  return (
    <Empty action={writes ? first : null}>
      Customers stand here with their kitchens and units. Put the first one on file, or bring in a sheet with all of them.
    </Empty>
  );
}
