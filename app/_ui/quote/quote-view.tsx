import { fullKitchenName } from '@/lib/core/wording/kitchen-name';
import type { ReactNode } from 'react';
import { toLocalDate } from '@/lib/core/calendar/date-column';
import { customerDay, customerFullDate } from '@/lib/core/calendar/when';
import { wordsIn, type Language } from '@/lib/core/customer-words';
import { quoteLineWords, quoteSums } from '@/lib/core/jobs';
import { money } from '@/lib/core/measures/figures';
import { FileLink } from '../buttons/button';
import { State } from '../states/state';
import { Table, Td, Th } from '../tables/table';
import type { QuoteOnFile } from '@/lib/core/jobs/quote-on-file';

type Props = {
  quote: QuoteOnFile;
  photos: { id: string; takenAt: Date; mime: string; thumbnail: Buffer }[];
  language: Language;
  pdf: string;
  /** The form to answer it, while nobody did. */
  children: ReactNode;
  /** What comes after it was accepted. */
  next: ReactNode;
};

/** A quote as the customer reads it. Works without script. */
export function QuoteView({ quote, photos, language, pdf, children, next }: Props) {
  const say = wordsIn(language).quote;
  const { kitchen } = quote.job;
  const { lines, currency } = quote;
  const sums = quoteSums(lines, quote.taxPercent);
  return (
    <div lang={language} className="flex flex-col gap-6">
      <header>
        <h1>{say.title(`${quote.job.number}-${quote.version}`)}</h1>
        <p className="text-soft">
          {fullKitchenName(kitchen)}
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
                src={`data:${p.mime};base64,${p.thumbnail.toString('base64')}`}
                alt={say.picture(i + 1, customerDay(p.takenAt, kitchen.timeZone, language))}
                className="h-36 rounded-md border border-line"
              />
            </li>
          ))}
        </ul>
      ) : null}
      <Table label={say.table}>
        <thead>
          <tr>
            <Th>{say.what}</Th>
            <Th className="text-right">{say.howMany}</Th>
            <Th className="text-right">{say.price}</Th>
            <Th className="text-right">{say.amount}</Th>
          </tr>
        </thead>
        <tbody>
          {lines.map((l, i) => (
            <tr key={i}>
              <Td>{quoteLineWords(l.kind, say.kind[l.kind], l.what)}</Td>
              <Td className="text-right whitespace-nowrap">
                {l.quantity} {say.unit(l.unit)}
              </Td>
              <Td className="text-right">{money(l.priceCents, currency)}</Td>
              <Td className="text-right">{money(sums.lines[i] ?? 0, currency)}</Td>
            </tr>
          ))}
          <tr>
            <Td colSpan={3}>{say.tax(quote.taxPercent)}</Td>
            <Td className="text-right">{money(sums.taxCents, currency)}</Td>
          </tr>
          <tr className="font-bold">
            <Td colSpan={3}>{say.inAll}</Td>
            <Td className="text-right">{money(sums.totalCents, currency)}</Td>
          </tr>
        </tbody>
      </Table>
      <p>
        {say.until(customerFullDate(toLocalDate(quote.validUntil), language))}{' '}
        <FileLink href={pdf} look="quiet">
          {say.pdf}
        </FileLink>
      </p>
      {quote.answer ? (
        <>
          <p role="status" className="rounded-md border border-edge bg-sheet p-5 text-lg">
            <State shape={quote.answer === 'accepted' ? 'done' : 'off'} tone="cold">
              {say.answer[quote.answer]}
            </State>{' '}
            {say.answer.by(quote.answeredBy)} {quote.answer === 'declined' ? say.answer.afterDeclined : ''}
          </p>
          {quote.answer === 'accepted' ? next : null}
        </>
      ) : (
        children
      )}
    </div>
  );
}
