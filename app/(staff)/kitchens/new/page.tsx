import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { customerToEdit } from '@/lib/features/customers/reads/customers';
import { unitsOf } from '@/lib/features/people/reads/people';
import { isId } from '@/lib/core/ids/is-id';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { placeFinder } from '@/lib/server/position/place-finder';
import { definePage } from '@/lib/server/doors/define-page';
import { PageHead } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { KitchenForm } from '../_components/kitchen-form';

export const metadata: Metadata = { title: 'New kitchen' };

export default definePage('write:equipment', async ({ db, actor, query }) => {
  const customer = isId(query.customer) ? await customerToEdit(db, query.customer) : null;
  if (!customer || customer.archivedAt) notFound();
  const [units, shop] = await Promise.all([unitsOf(db, actor.userId), shopSettings(db)]);
  return (
    <>
      <Trail
        items={[
          { href: '/customers', label: 'Customers' },
          { href: `/customers/${customer.id}`, label: customer.name },
        ]}
      />
      <PageHead title="New kitchen" />
      <KitchenForm
        canLookUp={placeFinder() !== null}
        customerId={customer.id}
        units={units}
        shopZone={shop?.timeZone ?? ''}
        currency={shop?.currency ?? 'USD'}
      />
    </>
  );
});
