import type { Metadata } from 'next';
import { isAppError } from '@/lib/core/errors';
import { visitByLink } from '@/lib/features/links/reads/customer-links';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { freeSlotsForVisit } from '@/lib/features/visits/reads/free-slots';
import { definePage } from '@/lib/server/define-page';
import { throttle } from '@/lib/server/throttle';
import { dayIn, timeIn } from '@/lib/core/calendar/when';
import { ReplyForm } from './_components/reply-form';

export const metadata: Metadata = { title: 'Your visit', robots: { index: false }, referrer: 'no-referrer' };

export default definePage('public', async ({ db, now, params }) => {
  const dead = 'This link is no longer good. Use the one in the latest message, or phone the shop.';
  let visit = null;
  let why = dead;
  try {
    await throttle('link', 60);
    visit = await visitByLink(db, params.token ?? '', now);
  } catch (e) {
    if (!isAppError(e)) throw e;
    why = e.message;
  }
  if (!visit)
    return (
      <main className="mx-auto max-w-xl px-5 py-16">
        <h1>This link does not open</h1>
        <p className="mt-4 text-soft">{why}</p>
      </main>
    );
  const shop = await shopSettings(db);
  const zone = visit.kitchen.timeZone;
  const slots = await freeSlotsForVisit(db, visit.id, now);
  return (
    <main className="mx-auto flex max-w-xl flex-col gap-6 px-5 py-10">
      <p className="font-bold text-cold">{shop?.name}</p>
      <h1>{visit.kitchen.name}</h1>
      <p className="text-xl">
        {dayIn(visit.startsAt.getTime(), zone)}, {timeIn(visit.startsAt.getTime(), zone)}–{timeIn(visit.endsAt.getTime(), zone)}
        <span className="block text-base text-soft">
          {visit.technician.name} comes. Units are switched off in turn while coils are cleaned: keep doors closed.
        </span>
      </p>
      <ReplyForm
        token={params.token ?? ''}
        given={visit.customerReply}
        slots={slots.map((s) => ({
          value: String(s.start),
          label: `${dayIn(s.start, zone)}, ${timeIn(s.start, zone)}–${timeIn(s.end, zone)}`,
        }))}
        phone={shop?.phone ?? ''}
      />
    </main>
  );
});
