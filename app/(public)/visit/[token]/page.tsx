import type { Metadata } from 'next';
import { customerDay, customerTime } from '@/lib/core/calendar/when';
import { wordsIn } from '@/lib/core/customer-words';
import { visitByLink } from '@/lib/features/links/reads/customer-links';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { freeSlotsForVisit } from '@/lib/features/visits/reads/free-slots';
import { definePage } from '@/lib/server/doors/define-page';
import { openLink } from '@/lib/server/doors/customer-links';
import { DeadCustomerLink } from '../../_components/dead-customer-link';
import { ReplyForm } from './_components/reply-form';

export const metadata: Metadata = { title: 'Your visit', robots: { index: false }, referrer: 'same-origin' };

export default definePage('public', async ({ db, now, params }) => {
  const visit = await openLink(() => visitByLink(db, params.token ?? '', now));
  if (!visit) return <DeadCustomerLink />;
  const shop = await shopSettings(db);
  const zone = visit.kitchen.timeZone;
  const { language } = visit.kitchen.customer;
  const say = wordsIn(language);
  const clock = (at: number | Date) => customerTime(at, zone, language);
  const when = (start: number | Date, end: number | Date) => say.visit.when(customerDay(start, zone, language), clock(start), clock(end));
  const slots = await freeSlotsForVisit(db, visit.id, now);
  return (
    <main lang={language} className="mx-auto flex max-w-xl flex-col gap-6 px-5 py-10">
      <p className="font-bold text-cold">{shop?.name}</p>
      <h1>{visit.kitchen.name}</h1>
      <p className="text-xl">
        {when(visit.startsAt, visit.endsAt)}
        <span className="block text-base text-soft">
          {say.yours.visits.who(visit.technician.name)} {say.yours.visits.power}
        </span>
      </p>
      <ReplyForm
        token={params.token ?? ''}
        given={visit.customerReply}
        slots={slots.map((s) => ({ value: String(s.start), label: when(s.start, s.end) }))}
        phone={shop?.phone ?? ''}
        language={language}
      />
    </main>
  );
});
