import type { Metadata } from 'next';
import { can } from '@/lib/core/people/access';
import { REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';
import { unitInKitchen } from '@/lib/features/equipment/reads/units';
import { unitsOf } from '@/lib/features/people/reads/people';
import { definePage } from '@/lib/server/doors/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { PageHead } from '@/app/_ui/page/sheet';
import { LookUp } from './_components/look-up';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

export const metadata: Metadata = { title: 'Pressure and temperature' };

export default definePage('look-up:refrigerant', async ({ db, actor, query }) => {
  const units = await unitsOf(db, actor.userId);
  const unit = await unitInKitchen(db, query.unit);
  return (
    <>
      <PageHead
        actions={can(actor, 'read:refrigerant-book') ? <ButtonLink href="/refrigerants/book">Refrigerant book</ButtonLink> : null}
        title="Pressure and temperature"
        lead={
          unit
            ? `For ${unit.name}, ${fullKitchenName(unit.kitchen)}.`
            : 'Type one, read the other. Gauge pressure is above the air where the gauge hangs.'
        }
      />
      <LookUp
        units={units}
        refrigerant={unit && REFRIGERANTS[unit.refrigerant] ? unit.refrigerant : 'R134a'}
        altitudeM={unit?.kitchen.altitudeM ?? 0}
      />
    </>
  );
});
