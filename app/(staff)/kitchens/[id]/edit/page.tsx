import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { kitchenToEdit } from '@/lib/features/kitchens/reads/kitchens';
import { unitsOf } from '@/lib/features/people/reads/people';
import { isId } from '@/lib/core/ids/is-id';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { placeFinder } from '@/lib/server/position/place-finder';
import { definePage } from '@/lib/server/doors/define-page';
import { PageHead } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { KitchenForm } from '../../_components/kitchen-form';

export const metadata: Metadata = { title: 'Edit kitchen' };

export default definePage('write:equipment', async ({ db, actor, params }) => {
  const kitchen = isId(params.id) ? await kitchenToEdit(db, params.id) : null;
  if (!kitchen) notFound();
  const [units, shop] = await Promise.all([unitsOf(db, actor.userId), shopSettings(db)]);
  return (
    <>
      <Trail
        items={[
          { href: `/customers/${kitchen.customerId}`, label: kitchen.customer.name },
          { href: `/kitchens/${kitchen.id}`, label: kitchen.name },
        ]}
      />
      <PageHead title={`Edit ${kitchen.name}`} />
      <KitchenForm
        canLookUp={placeFinder() !== null}
        kitchen={kitchen}
        units={units}
        shopZone={shop?.timeZone ?? ''}
        currency={shop?.currency ?? 'USD'}
      />
    </>
  );
});
