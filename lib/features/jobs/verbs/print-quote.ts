import 'server-only';
import { DEAD_LINK, type Language } from '../../../core/customer-words';
import { AppError } from '../../../core/errors';
import { isId } from '../../../core/ids/is-id';
import type { ShopOnReport } from '../../../core/reports/visit-for-customer';
import type { Tx } from '../../../database/client';
import { quoteOnPage } from '../../customer-pages/reads/on-page';
import { pageByLink } from '../../customer-pages/reads/page-link';
import { shopOnReport } from '../../reports/reads/customer-report';
import { quoteById, quoteByLink, quotePhotos, type PrintedQuote } from '../reads/quotes';

/** `file`: its name, without an ending. */
export type PrintableQuote = {
  language: Language;
  file: string;
  quote: PrintedQuote;
  shop: ShopOnReport;
  photos: { id: string; bytes: Buffer }[];
};

async function printable(db: Tx, quote: PrintedQuote | null): Promise<PrintableQuote> {
  if (!quote) throw new AppError('not_found', DEAD_LINK);
  return {
    language: quote.job.kitchen.customer.language,
    file: `quote-${quote.job.number}-${quote.version}`,
    quote,
    shop: await shopOnReport(db),
    photos: await quotePhotos(db, quote.photoIds, false),
  };
}

/** A quote with all that stands on paper, for the office. @throws AppError not_found */
export const printQuote = async (db: Tx, id: string | undefined): Promise<PrintableQuote> =>
  printable(db, isId(id) ? await quoteById(db, id) : null);

/** The same behind the customer's link. @throws AppError not_found */
export const printQuoteByLink = async (db: Tx, token: string | undefined, now: Date): Promise<PrintableQuote> =>
  printable(db, await quoteByLink(db, token ?? '', now));

/** The same on a customer's page. @throws AppError not_found */
export async function printQuoteOnPage(
  db: Tx,
  { token = '', quote }: { token?: string; quote?: string },
  now: Date,
): Promise<PrintableQuote> {
  const page = await pageByLink(db, token, now);
  return printable(db, page && isId(quote) ? await quoteOnPage(db, page, quote, now) : null);
}
