import type { Metadata } from 'next';
import { customerDay, customerTime } from '@/lib/core/calendar/when';
import { languageOr, wordsIn } from '@/lib/core/customer-words';
import { isId } from '@/lib/core/ids/is-id';
import { visitOnPage } from '@/lib/features/customer-pages/reads/on-page';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { freeSlotsForVisit } from '@/lib/features/visits/reads/free-slots';
import { openPage } from '@/lib/server/doors/customer-links';
import { definePage } from '@/lib/server/doors/define-page';
import { DeadCustomerLink } from '../../../../_components/dead-customer-link';
import { Frame } from '../../_components/frame';
import { OtherTimeForm } from '../../_components/other-time-form';

export const metadata: Metadata = { title: 'Another time', robots: { index: false }, referrer: 'same-origin' };

export default definePage('public', async ({ db, now, params, query }) => {
  const token = params.token ?? '';
  const page = await openPage(token);
  const visit = page && isId(params.visit) ? await visitOnPage(db, page, params.visit, now) : null;
  if (!page || !visit) return <DeadCustomerLink />;
  const language = languageOr(query.language, page.language);
  const say = wordsIn(language).yours;
  const zone = visit.kitchen.timeZone;
  const when = (start: number | Date, end: number | Date) =>
    say.visits.line(customerDay(start, zone, language), customerTime(start, zone, language), customerTime(end, zone, language));
  const slots = await freeSlotsForVisit(db, visit.id, now);
  return (
    <Frame shop={await shopSettings(db)} language={language} token={token} back>
      <header>
        <h1>{say.another.title}</h1>
        <p className="mt-1 text-soft">{say.visits.on(visit.kitchen.name)}</p>
        <p className="mt-2 text-lg">{say.another.now(when(visit.startsAt, visit.endsAt))}</p>
      </header>
      <OtherTimeForm
        token={token}
        visitId={visit.id}
        slots={slots.map((s) => ({ value: String(s.start), label: when(s.start, s.end) }))}
        texts={{
          free: say.another.free,
          none: say.another.none,
          note: say.another.note,
          ask: say.another.ask,
          choose: say.another.choose,
        }}
        tooLong={say.errors.long}
      />
    </Frame>
  );
});
