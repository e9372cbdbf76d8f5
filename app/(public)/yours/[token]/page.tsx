import { randomUUID } from 'node:crypto';
import type { Metadata } from 'next';
import Link from 'next/link';
import { customerDay, customerMonths } from '@/lib/core/calendar/when';
import { languageOr, wordsIn } from '@/lib/core/customer-words';
import { onPage } from '@/lib/features/customer-pages/reads/on-page';
import { calendarToken } from '@/lib/features/links/reads/link-token';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { countPageOpening, openPage } from '@/lib/server/doors/customer-links';
import { definePage } from '@/lib/server/doors/define-page';
import { DeadCustomerLink } from '../../_components/dead-customer-link';
import { Frame, placeOf } from './_components/frame';
import { NextVisits } from './_components/next-visits';
import { OpenQuotes, OpenWork } from './_components/open-work';
import { RingForm } from './_components/ring-form';

export const metadata: Metadata = { title: 'Your refrigeration', robots: { index: false }, referrer: 'same-origin' };

export default definePage('public', async ({ db, now, baseUrl, params, query }) => {
  const token = params.token ?? '';
  const page = await openPage(token);
  if (!page) return <DeadCustomerLink />;
  await countPageOpening(page.id);
  const language = languageOr(query.language, page.language);
  const say = wordsIn(language).yours;
  const [shop, on] = await Promise.all([shopSettings(db), onPage(db, page, now)]);
  const many = page.kitchens.length > 1;
  return (
    <Frame shop={shop} language={language} token={token}>
      <header>
        <h1>{page.all || !page.kitchens[0] ? page.customer.name : page.kitchens[0].name}</h1>
        <p className="mt-1 text-soft">{say.of(page.kitchens.length)}</p>
      </header>
      <OpenQuotes quotes={on.quotes} token={token} language={language} />
      <NextVisits visits={on.visits} token={token} language={language} nameKitchen={many} />
      <OpenWork jobs={on.jobs} language={language} nameKitchen={many} />
      <section className="no-print">
        <h2>{say.ring.heading}</h2>
        <p className="mt-1">{say.ring.lead}</p>
        <p className="mt-1 text-soft">{say.ring.danger}</p>
        <RingForm
          token={token}
          once={randomUUID()}
          language={language}
          phone={shop?.phone ?? ''}
          kitchens={page.kitchens.map(({ id, name }) => ({ id, name }))}
          units={on.units}
        />
      </section>
      <section>
        <h2>{say.reports.heading}</h2>
        {on.reports.length + on.quarters.length === 0 ? <p className="mt-2 text-soft">{say.reports.none}</p> : null}
        <ul className="mt-2 flex flex-col">
          {on.quarters.map((q) => (
            <li key={q}>
              <Link href={placeOf(token, `quarters/${q}`, language)} className="inline-flex min-h-11 items-center">
                {wordsIn(language).quarter.name}: {customerMonths(q, language)}
              </Link>
            </li>
          ))}
          {on.reports.map((r) => (
            <li key={r.id}>
              <Link href={placeOf(token, `reports/${r.id}`, language)} className="inline-flex min-h-11 items-center">
                {say.reports.open(customerDay(r.arrivedAt ?? r.startsAt, r.kitchen.timeZone, language))}
                {many ? `, ${r.kitchen.name}` : ''}
              </Link>
            </li>
          ))}
        </ul>
      </section>
      <section className="no-print">
        <h2>{say.calendar.heading}</h2>
        <p className="mt-1">{say.calendar.text}</p>
        <p className="mt-2 rounded-md border border-line bg-sheet p-3 break-all">
          <code>{`${baseUrl}/api/feeds/${calendarToken(token)}.ics`}</code>
        </p>
      </section>
    </Frame>
  );
});
