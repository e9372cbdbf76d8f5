import type { Metadata } from 'next';
import { money, QUOTE_LINE_LABEL, quoteSums } from '@/lib/core/jobs';
import { toLocalDate } from '@/lib/core/calendar/date-column';
import { dateWords, dayIn } from '@/lib/core/calendar/when';
import { quoteByLink, quotePhotos } from '@/lib/features/jobs/reads/quotes';
import { shopSettings } from '@/lib/features/shop/reads/settings';
import { definePage } from '@/lib/server/define-page';
import { openLink } from '@/lib/server/customer-links';
import { DeadLink } from '../../_components/dead-link';
import { FileLink } from '../../../_ui/button';
import { State } from '../../../_ui/state';
import { Table, Td, Th } from '../../../_ui/table';
import { AnswerForm } from './_components/answer-form';

export const metadata: Metadata = { title: 'Your quote', robots: { index: false }, referrer: 'no-referrer' };

export default definePage('public', async ({ db, now, params }) => {
  const token = params.token ?? '';
  const link = await openLink(() => quoteByLink(db, token, now));
  if (!link.found) return <DeadLink why={link.why} />;
  const quote = link.found;
  const shop = await shopSettings(db);
  const photos = await quotePhotos(db, quote.photoIds, true);
  const { kitchen } = quote.job;
  const { lines } = quote;
  const sums = quoteSums(lines, quote.taxPercent);
  const { currency } = quote;
  return (
    <main className="mx-auto flex max-w-2xl flex-col gap-6 px-5 py-10">
      <p className="font-bold text-cold">
        {shop?.name} {shop?.phone ? <span className="font-normal text-soft">{shop.phone}</span> : null}
      </p>
      <header>
        <h1>
          Quote {quote.job.number}-{quote.version}
        </h1>
        <p className="text-soft">
          {kitchen.customer.name === kitchen.name ? kitchen.name : `${kitchen.customer.name}, ${kitchen.name}`}
          {quote.job.units.length > 0 ? `: ${quote.job.units.map(({ unit }) => unit.name).join(', ')}` : ''}
        </p>
      </header>
      <p className="text-lg">{quote.reason}</p>
      {photos.length > 0 ? (
        <ul className="flex flex-wrap gap-3">
          {photos.map((p, i) => (
            <li key={p.id}>
              {/* eslint-disable-next-line @next/next/no-img-element -- Part of the page itself: nothing else opens with this link. */}
              <img
                src={`data:${p.mime};base64,${p.bytes.toString('base64')}`}
                alt={`Picture ${i + 1}, taken ${dayIn(p.takenAt, kitchen.timeZone)}`}
                className="h-36 rounded-md border border-line"
              />
            </li>
          ))}
        </ul>
      ) : null}
      <Table label="What it comes to">
        <thead>
          <tr>
            <Th>What</Th>
            <Th className="text-right">How many</Th>
            <Th className="text-right">Price</Th>
            <Th className="text-right">Amount</Th>
          </tr>
        </thead>
        <tbody>
          {lines.map((l, i) => (
            <tr key={i}>
              <Td>
                <span className="text-soft">{QUOTE_LINE_LABEL[l.kind]}:</span> {l.what}
              </Td>
              <Td className="text-right whitespace-nowrap">
                {l.quantity} {l.unit}
              </Td>
              <Td className="text-right">{money(l.priceCents, currency)}</Td>
              <Td className="text-right">{money(sums.lines[i] ?? 0, currency)}</Td>
            </tr>
          ))}
          <tr>
            <Td colSpan={3}>Tax, {quote.taxPercent} % of what is taxed</Td>
            <Td className="text-right">{money(sums.taxCents, currency)}</Td>
          </tr>
          <tr className="font-bold">
            <Td colSpan={3}>In all</Td>
            <Td className="text-right">{money(sums.totalCents, currency)}</Td>
          </tr>
        </tbody>
      </Table>
      <p>
        Valid until {dateWords(toLocalDate(quote.validUntil))}.{' '}
        <FileLink href={`/quote/${token}/pdf`} look="quiet">
          As PDF
        </FileLink>
      </p>
      {quote.answer ? (
        <p role="status" className="rounded-md border border-edge bg-sheet p-5 text-lg">
          <State shape={quote.answer === 'accepted' ? 'done' : 'off'} tone="cold">
            {quote.answer === 'accepted' ? 'Accepted' : 'Declined'}
          </State>{' '}
          by {quote.answeredBy}. {quote.answer === 'accepted' ? 'We call to find a time.' : 'Thank you for telling us.'}
        </p>
      ) : (
        <AnswerForm token={token} />
      )}
    </main>
  );
});
