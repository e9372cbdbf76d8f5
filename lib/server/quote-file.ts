import 'server-only';
import type { Tx } from '../database/client';
import { quotePhotos, type PrintedQuote } from '../features/jobs/reads/quotes';
import { shopSettings } from '../features/shop/reads/settings';
import { quotePdf } from './quote-pdf';

/** A quote as the answer to a request for its PDF. */
export async function quoteFile(db: Tx, quote: PrintedQuote): Promise<Response> {
  const pdf = await quotePdf(quote, await shopSettings(db), await quotePhotos(db, quote.photoIds, false));
  return new Response(pdf, {
    headers: {
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="quote-${quote.job.number}-${quote.version}.pdf"`,
      'cache-control': 'no-store',
    },
  });
}
