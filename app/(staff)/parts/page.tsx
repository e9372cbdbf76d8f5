import type { Metadata } from 'next';
import { money } from '@/lib/core/jobs';
import { counted } from '@/lib/core/wording/counted';
import { partsOnFile } from '@/lib/features/parts/reads/parts';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { definePage } from '@/lib/server/define-page';
import { FileLink } from '@/app/_ui/buttons/button';
import { Empty, PageHead } from '@/app/_ui/page/sheet';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { Trail } from '@/app/_ui/page/trail';
import { PartForm } from './_components/part-form';
import { PartsIn } from './_components/parts-in';

export const metadata: Metadata = { title: 'Parts' };

export default definePage('write:part', async ({ db }) => {
  const parts = await partsOnFile(db);
  const currency = (await shopSettings(db))?.currency ?? 'USD';
  return (
    <>
      <Trail items={[{ href: '/jobs', label: 'Jobs' }]} />
      <PageHead
        title="Parts"
        lead={`${counted(parts.length, 'part')} with price and where they lie. A quote takes them from here.`}
        actions={<FileLink href="/parts/export">Parts as CSV</FileLink>}
      />
      <div className="grid grid-cols-1 items-start gap-6 lg:grid-cols-[minmax(0,1fr)_22rem]">
        {parts.length === 0 ? (
          <Empty>No part is on the list. Put one there, or bring in a file.</Empty>
        ) : (
          <Table label="Parts">
            <thead>
              <tr>
                <Th>Number</Th>
                <Th>Name</Th>
                <Th className="text-right">Price</Th>
                <Th className="text-right">In the van</Th>
                <Th className="text-right">In the shop</Th>
                <Th className="text-right">Warranty</Th>
              </tr>
            </thead>
            <tbody>
              {parts.map((p) => (
                <tr key={p.id}>
                  <Td className="whitespace-nowrap">{p.number}</Td>
                  <Td>{p.name}</Td>
                  <Td className="text-right">{money(p.priceCents, currency)}</Td>
                  <Td className="text-right">{p.inVan}</Td>
                  <Td className="text-right">{p.inShop}</Td>
                  <Td className="text-right">{p.warrantyMonths === null ? '' : counted(p.warrantyMonths, 'month')}</Td>
                </tr>
              ))}
            </tbody>
          </Table>
        )}
        <div className="flex flex-col gap-6">
          <PartForm />
          <PartsIn />
        </div>
      </div>
    </>
  );
});
