import 'server-only';
import { DEAD_LINK, type Language } from '../../../core/customer-words';
import { AppError } from '../../../core/errors';
import { isId } from '../../../core/ids/is-id';
import type { ShopOnReport } from '../../../core/reports/visit-for-customer';
import type { Tx } from '../../../database/client';
import type { Pictures } from '../../../database/pictures/picture-store.mjs';
import { quoteOnPage } from '../../customer-pages/reads/on-page';
import { pageByLink } from '../../customer-pages/reads/page-link';
import { shopOnReport } from '../../reports/reads/customer-report';
import { quoteById, quoteByLink, quotePhotos, type PrintedQuote } from '../reads/quotes';

type Ctx = { db: Tx; pictures: Pictures };

/** `file`: its name, without an ending. */
export type PrintableQuote = {
  language: Language;
  file: string;
  quote: PrintedQuote;
  shop: ShopOnReport;
  photos: { id: string; bytes: Buffer }[];
};

async function printable({ db, pictures }: Ctx, quote: PrintedQuote | null): Promise<PrintableQuote> {
  if (!quote) throw new AppError('not_found', DEAD_LINK);
  const photos = [];
  for (const { id, content } of await quotePhotos(db, quote.photoIds)) {
    const bytes = await pictures.get(content);
    if (bytes) photos.push({ id, bytes: Buffer.from(bytes) });
  }
  return {
    language: quote.job.kitchen.customer.language,
    file: `quote-${quote.job.number}-${quote.version}`,
    quote,
    shop: await shopOnReport(db),
    photos,
  };
}

/** A quote with all that stands on paper, for the office. @throws AppError not_found */
export const printQuote = async (ctx: Ctx, id: string | undefined): Promise<PrintableQuote> =>
  printable(ctx, isId(id) ? await quoteById(ctx.db, id) : null);

/** The same behind the customer's link. @throws AppError not_found */
export const printQuoteByLink = async (ctx: Ctx & { now: Date }, token = ''): Promise<PrintableQuote> =>
  printable(ctx, await quoteByLink(ctx.db, token, ctx.now));

type OnPage = { token?: string; quote?: string };
/** The same on a customer's page. @throws AppError not_found */
export async function printQuoteOnPage(ctx: Ctx & { now: Date }, { token = '', quote }: OnPage): Promise<PrintableQuote> {
  const page = await pageByLink(ctx.db, token, ctx.now);
  return printable(ctx, page && isId(quote) ? await quoteOnPage(ctx.db, page, quote, ctx.now) : null);
}
