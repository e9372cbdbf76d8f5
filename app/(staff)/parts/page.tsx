import type { Metadata } from 'next';
import { money } from '@/lib/core/measures/figures';
import { counted } from '@/lib/core/wording/counted';
import { partsOnFile, vansOfShop } from '@/lib/features/parts/reads/parts';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { definePage } from '@/lib/server/doors/define-page';
import { FileLink } from '@/app/_ui/buttons/button';
import { Empty, PageHead } from '@/app/_ui/page/sheet';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { Trail } from '@/app/_ui/page/trail';
import { MoveForm } from './_components/move-form';
import { PartForm } from './_components/part-form';
import { PartsIn } from './_components/parts-in';

export const metadata: Metadata = { title: 'Parts' };

export default definePage('write:part', async ({ db }) => {
  const [parts, vans] = await Promise.all([partsOnFile(db), vansOfShop(db)]);
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
          <Table stack label="Parts">
            <thead>
              <tr>
                <Th>Number</Th>
                <Th>Name</Th>
                <Th className="text-right">Price</Th>
                <Th className="text-right">In the shop</Th>
                <Th>In the vans</Th>
                <Th className="text-right">Warranty</Th>
              </tr>
            </thead>
            <tbody>
              {parts.map((p) => (
                <tr key={p.id}>
                  <Td className="font-bold whitespace-nowrap">{p.number}</Td>
                  <Td label="Name">{p.name}</Td>
                  <Td label="Price" className="md:text-right">
                    {money(p.priceCents, currency)}
                  </Td>
                  <Td label="In the shop" className="md:text-right">
                    {p.inShop}
                  </Td>
                  <Td label="In the vans">{vanWords(p)}</Td>
                  <Td label="Warranty" className="md:text-right">
                    {p.warrantyMonths === null ? 'none' : counted(p.warrantyMonths, 'month')}
                  </Td>
                </tr>
              ))}
            </tbody>
          </Table>
        )}
        <div className="flex flex-col gap-6">
          {parts.length > 0 ? <MoveForm parts={parts.map(({ number, name }) => ({ number, name }))} vans={vans} /> : null}
          <PartForm />
          <PartsIn vans={vans.map((v) => v.name)} />
        </div>
      </div>
    </>
  );
});

/** "Tova Lind 2, nobody said whose 1". */
const vanWords = ({ vans, inVan }: Awaited<ReturnType<typeof partsOnFile>>[number]): string =>
  [...vans.map((v) => `${v.technician.name} ${v.pieces}`), ...(inVan > 0 ? [`nobody said whose ${inVan}`] : [])].join(', ') || '0';
