import { whole } from '@/lib/core/measures/figures';
import type { Metadata } from 'next';
import { speedWords } from '@/lib/core/measures/region';
import { counted } from '@/lib/core/wording/counted';
import { shopDistance, shopRoad, shopTimeZone } from '@/lib/features/shop/reads/shop';
import { countTravelTimes, namedKitchens } from '@/lib/features/planning/reads/travel';
import { changesOf } from '@/lib/features/audit/reads/audit';
import { definePage } from '@/lib/server/doors/define-page';
import { FileLink } from '@/app/_ui/buttons/button';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { ChangeHistory } from '@/app/(staff)/_components/change-history';
import { TravelForm } from './_components/travel-form';

export const metadata: Metadata = { title: 'Driving minutes' };

export default definePage('plan:week', async ({ db }) => {
  const [stored, kitchens, road, distance] = await Promise.all([countTravelTimes(db), namedKitchens(db), shopRoad(db), shopDistance(db)]);
  const unplaced = kitchens.filter((k) => k.lat === null).length;
  return (
    <>
      <Trail items={[{ href: '/week', label: 'Week' }]} />
      <PageHead
        title="Driving minutes"
        lead="How long the vans take from kitchen to kitchen, for planning, for free times and for emergencies."
        actions={
          <FileLink href="/week/travel/template" download>
            Template with all pairs
          </FileLink>
        }
      />
      <div className="grid grid-cols-1 items-start gap-6 lg:grid-cols-[minmax(0,3fr)_minmax(0,2fr)]">
        <TravelForm stored={stored} />
        <Sheet title="What counts">
          <ul className="list-disc space-y-2 pl-5">
            <li>
              {stored === 0
                ? 'No minutes are imported now.'
                : `${counted(stored, 'pair is', 'pairs are')} imported now, of ${whole(kitchens.length * (kitchens.length - 1))} between ${counted(kitchens.length, 'kitchen')}.`}
            </li>
            <li>
              A pair that is not imported is worked out from coordinates: straight line × {road.circuity} at{' '}
              {speedWords(road.speedKmh, distance)}, both set under Shop.
            </li>
            <li>
              The way from home or the shop is always worked out from coordinates
              {unplaced > 0 ? `; ${counted(unplaced, 'kitchen has', 'kitchens have')} none and cannot be planned` : ''}.
            </li>
            <li>Each way counts by itself: give both where they differ, and both where they do not.</li>
          </ul>
          <h3 className="mt-5">The file</h3>
          <p>
            Columns <code>from</code>, <code>to</code>, <code>minutes</code>. A kitchen is written “Customer, Kitchen”, by its own name
            where only one is called so, or by the tag of one of its units. The template holds every pair with the minutes that count now.
          </p>
        </Sheet>
      </div>
      <ChangeHistory changes={await changesOf(db, 'TravelTime', '')} timeZone={await shopTimeZone(db)} />
    </>
  );
});
