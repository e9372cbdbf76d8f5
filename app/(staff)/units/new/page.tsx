import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { kitchenToEdit } from '@/lib/features/kitchens/reads/kitchens';
import { unitsOf } from '@/lib/features/people/reads/people';
import { isId } from '@/lib/core/ids/is-id';
import { definePage } from '@/lib/server/doors/define-page';
import { PageHead } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { UnitForm } from '../_components/unit-form';
import { UnitLines } from '../_components/unit-lines';

export const metadata: Metadata = { title: 'New unit' };

export default definePage('write:equipment', async ({ db, actor, query }) => {
  const kitchen = isId(query.kitchen) ? await kitchenToEdit(db, query.kitchen) : null;
  if (!kitchen || kitchen.archivedAt) notFound();
  return (
    <>
      <Trail
        items={[
          { href: `/customers/${kitchen.customerId}`, label: kitchen.customer.name },
          { href: `/kitchens/${kitchen.id}`, label: kitchen.name },
        ]}
      />
      <PageHead title="New unit" />
      <UnitLines kitchenId={kitchen.id} />
      <UnitForm kitchenId={kitchen.id} units={await unitsOf(db, actor.userId)} />
    </>
  );
});
