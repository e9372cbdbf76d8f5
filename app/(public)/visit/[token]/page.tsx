import type { Metadata } from 'next';
import { visitByLink } from '@/lib/features/links/reads/customer-links';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { freeSlotsForVisit } from '@/lib/features/visits/reads/free-slots';
import { definePage } from '@/lib/server/define-page';
import { openLink } from '@/lib/server/customer-links';
import { DeadLink } from '../../_components/dead-link';
import { momentIn, timeIn } from '@/lib/core/calendar/when';
import { ReplyForm } from './_components/reply-form';

export const metadata: Metadata = { title: 'Your visit', robots: { index: false }, referrer: 'same-origin' };

export default definePage('public', async ({ db, now, params }) => {
  const link = await openLink(() => visitByLink(db, params.token ?? '', now));
  if (!link.found) return <DeadLink why={link.why} />;
  const visit = link.found;
  const shop = await shopSettings(db);
  const zone = visit.kitchen.timeZone;
  const slots = await freeSlotsForVisit(db, visit.id, now);
  return (
    <main className="mx-auto flex max-w-xl flex-col gap-6 px-5 py-10">
      <p className="font-bold text-cold">{shop?.name}</p>
      <h1>{visit.kitchen.name}</h1>
      <p className="text-xl">
        {momentIn(visit.startsAt.getTime(), zone)}–{timeIn(visit.endsAt.getTime(), zone)}
        <span className="block text-base text-soft">
          {visit.technician.name} comes. Units are switched off in turn while coils are cleaned: keep doors closed.
        </span>
      </p>
      <ReplyForm
        token={params.token ?? ''}
        given={visit.customerReply}
        slots={slots.map((s) => ({
          value: String(s.start),
          label: `${momentIn(s.start, zone)}–${timeIn(s.end, zone)}`,
        }))}
        phone={shop?.phone ?? ''}
      />
    </main>
  );
});
