import { fullKitchenName } from '@/lib/core/wording/kitchen-name';
import type { Metadata } from 'next';
import Link from 'next/link';
import { counted } from '@/lib/core/wording/counted';
import { learntPlaces, lookups } from '@/lib/features/kitchens/reads/lookups';
import { countPlaced, kitchensWithoutPosition } from '@/lib/features/kitchens/reads/positions';
import { shopDistance, shopPosition } from '@/lib/features/shop/reads/shop';
import { placeFinder } from '@/lib/server/position/place-finder';
import { definePage } from '@/lib/server/doors/define-page';
import { Button, ButtonLink } from '@/app/_ui/buttons/button';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { MapOfKitchens } from '@/app/_ui/map/with-around';
import { LearntPlaces } from './_components/learnt-places';
import { LookedUp } from './_components/looked-up';
import { PlaceRow } from './_components/place-row';

/** Of each list at once: what is done makes room for the next. */
const SHOWN = 20;

export const metadata: Metadata = { title: 'Positions' };

export default definePage('write:equipment', async ({ db, query }) => {
  const sought = (query.q ?? '').trim().slice(0, 100);
  const [{ total, found, fitting, kitchens }, placed, shop, looked, learnt, distance] = await Promise.all([
    kitchensWithoutPosition(db, SHOWN, sought),
    countPlaced(db),
    shopPosition(db),
    lookups(db, SHOWN),
    learntPlaces(db),
    shopDistance(db),
  ]);
  return (
    <>
      <PageHead
        title="Positions"
        lead="Set a pin on the map, or paste a position as a map or a phone shows it: 41.88, -87.63 or a plus code."
      />
      <div className="flex flex-col gap-6">
        {placeFinder() && (total > 0 || looked.waiting > 0) ? (
          <LookedUp
            waiting={looked.waiting}
            problem={looked.problem}
            found={looked.found.map(({ judged, ...f }) => ({ ...f, ...judged }))}
            foundTotal={looked.foundTotal}
            unfound={looked.unfound}
            lost={total}
          />
        ) : null}
        {learnt.length > 0 ? <LearntPlaces places={learnt} distance={distance} /> : null}
        {total === 0 ? (
          <Empty action={<ButtonLink href="/week">The week</ButtonLink>}>
            {placed > 0 ? 'Every kitchen has its position.' : 'Kitchens that have no position will stand here, to be given one.'}
          </Empty>
        ) : (
          <Sheet title={`${counted(total, 'kitchen')} without a position`}>
            {shop ? null : (
              <p className="mb-2 text-soft">
                The shop has none either. Short plus codes, as map apps show them with a town, can be read once{' '}
                <Link href="/shop#position">the shop’s position</Link> is set.
              </p>
            )}
            {found > 0 ? <p className="mb-2 text-soft">{`For ${found} of them a place was found; they stand above.`}</p> : null}
            {total - found > SHOWN ? (
              <form role="search" action="/customers/positions" className="mb-2 flex flex-wrap items-center gap-2">
                <label htmlFor="find-kitchen">Find one by name or street</label>
                <input
                  id="find-kitchen"
                  name="q"
                  type="search"
                  defaultValue={sought}
                  className="min-h-9 w-full max-w-xs rounded-md border border-edge bg-sheet px-3 py-1.5"
                />
                <Button type="submit">Find</Button>
              </form>
            ) : null}
            {sought && kitchens.length === 0 ? <p className="text-soft">None of them fits.</p> : null}
            {kitchens.map((k) => (
              <PlaceRow key={k.id} id={k.id} name={fullKitchenName(k)} address={k.address} />
            ))}
            {fitting > kitchens.length ? <p className="mt-3 text-soft">and {fitting - kitchens.length} more, as these are done.</p> : null}
          </Sheet>
        )}
        {placed > 0 ? (
          <Sheet title="Where they are">
            <MapOfKitchens />
          </Sheet>
        ) : null}
      </div>
    </>
  );
});
