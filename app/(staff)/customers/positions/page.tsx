import type { Metadata } from 'next';
import Link from 'next/link';
import { counted } from '@/lib/core/wording/counted';
import { kitchenPoints, kitchensWithoutPosition } from '@/lib/features/kitchens/reads/positions';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { definePage } from '@/lib/server/define-page';
import { ButtonLink } from '../../../_ui/button';
import { Empty, PageHead, Sheet } from '../../../_ui/sheet';
import { PlaceRow } from './_components/place-row';
import { PlainMap } from './_components/plain-map';

const SHOWN = 60;
const MOST_POINTS = 2000;

export const metadata: Metadata = { title: 'Positions' };

export default definePage('write:equipment', async ({ db }) => {
  const [{ total, kitchens }, points, shop] = await Promise.all([
    kitchensWithoutPosition(db, SHOWN),
    kitchenPoints(db, MOST_POINTS),
    shopSettings(db),
  ]);
  const at = shop?.lat != null && shop.lng !== null ? { lat: shop.lat, lng: shop.lng } : null;
  return (
    <>
      <PageHead
        title="Positions"
        lead="Find the address on a map or stand at the door with a phone, copy the position, and paste it here: 41.88, -87.63 or a plus code."
        actions={<ButtonLink href="/customers">Kitchens</ButtonLink>}
      />
      <div className="flex flex-col gap-6">
        {kitchens.length === 0 ? (
          <Empty action={<ButtonLink href="/week">The week</ButtonLink>}>
            {points.length > 0 ? 'Every kitchen has its position.' : 'Kitchens that have no position will stand here, to be given one.'}
          </Empty>
        ) : (
          <Sheet title={`${counted(total, 'kitchen')} without a position`}>
            {at ? null : (
              <p className="mb-2 text-soft">
                The shop has none either. Short plus codes, as map apps show them with a town, can be read once{' '}
                <Link href="/shop#position">the shop’s position</Link> is set.
              </p>
            )}
            {kitchens.map((k) => (
              <PlaceRow key={k.id} id={k.id} name={k.name === k.customer ? k.name : `${k.customer}, ${k.name}`} address={k.address} />
            ))}
            {total > kitchens.length ? <p className="mt-3 text-soft">and {total - kitchens.length} more, as these are done.</p> : null}
          </Sheet>
        )}
        {points.length > 1 ? (
          <Sheet title="Where they are">
            <PlainMap points={points} shop={at} />
          </Sheet>
        ) : null}
      </div>
    </>
  );
});
