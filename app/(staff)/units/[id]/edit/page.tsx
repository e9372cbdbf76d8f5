import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { unitsOf } from '@/lib/features/people/reads/people';
import { isId } from '@/lib/core/ids/is-id';
import { unitPage } from '@/lib/features/equipment/reads/units';
import { definePage } from '@/lib/server/doors/define-page';
import { PageHead } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { UnitForm, type UnitFields } from '../../_components/unit-form';

export const metadata: Metadata = { title: 'Edit unit' };

export default definePage('write:equipment', async ({ db, actor, params }) => {
  const unit = isId(params.id) ? await unitPage(db, params.id) : null;
  if (!unit) notFound();
  const { kitchen, ...fields } = unit;
  return (
    <>
      <Trail
        items={[
          { href: `/kitchens/${kitchen.id}`, label: kitchen.name },
          { href: `/units/${unit.id}`, label: unit.name },
        ]}
      />
      <PageHead title={`Edit ${unit.name}`} />
      <UnitForm kitchenId={kitchen.id} unit={fields as UnitFields} units={await unitsOf(db, actor.userId)} />
    </>
  );
});
