import type { Metadata } from 'next';
import Link from 'next/link';
import { can } from '@/lib/core/people/access';
import { definePage } from '@/lib/server/doors/define-page';
import { calendarOwners } from '@/lib/features/feeds/reads/calendar-feeds';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { ManyAddresses } from './_components/many-addresses';
import { NobodyGoes } from '../_components/nobody-goes';
import { FeedRow } from './_components/feed-row';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

export const metadata: Metadata = { title: 'Calendar addresses' };

export default definePage('book:visit', async ({ db, actor }) => {
  const { technicians, kitchens } = await calendarOwners(db);
  return (
    <>
      <Trail items={[{ href: '/week', label: 'Week' }]} />
      <PageHead
        title="Calendar addresses"
        lead="A secret address puts visits into any calendar that subscribes to it. Whoever has it can read it; a new address ends the old one."
      />
      <div className="grid grid-cols-1 gap-6 lg:grid-cols-2">
        <Sheet title="Technicians">
          {technicians.length === 0 ? <NobodyGoes mayAdd={can(actor, 'manage:people')} /> : null}
          <ManyAddresses whose="technicians" missing={technicians.filter((t) => !t.live).length} />
          <ul>
            {technicians.map((t) => (
              <FeedRow key={t.id} name={t.name} of={{ userId: t.id }} live={t.live} />
            ))}
          </ul>
        </Sheet>
        <Sheet title="Kitchens">
          {kitchens.length === 0 ? (
            <p className="text-soft">
              No kitchen is on file yet. <Link href="/customers">Put kitchens on file</Link>.
            </p>
          ) : null}
          <ManyAddresses whose="kitchens" missing={kitchens.filter((k) => !k.live).length} />
          <ul>
            {kitchens.map((k) => (
              <FeedRow key={k.id} name={fullKitchenName(k)} of={{ kitchenId: k.id }} live={k.live} />
            ))}
          </ul>
        </Sheet>
      </div>
    </>
  );
});
