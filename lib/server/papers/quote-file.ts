import 'server-only';
import { DEAD_LINK } from '../../core/customer-words';
import { AppError } from '../../core/errors';
import { isId } from '../../core/ids/is-id';
import type { Tx } from '../../database/client';
import { quoteOnPage } from '../../features/customer-pages/reads/on-page';
import { pageByLink } from '../../features/customer-pages/reads/page-link';
import { quoteById, quoteByLink, quotePhotos, type PrintedQuote } from '../../features/jobs/reads/quotes';
import { shopSettings } from '../../features/shop/reads/settings';
import { pictures } from '../process/pictures';
import { paperFile } from './on-thread';
import type { quotePdf } from './quote-pdf';

/** A quote as PDF, for the office. @throws AppError not_found */
export async function quoteFile(db: Tx, id: string | undefined): Promise<Response> {
  return answer(db, isId(id) ? await quoteById(db, id) : null);
}

/** The same behind the customer's link. @throws AppError not_found */
export async function quoteFileByLink(db: Tx, token: string | undefined, now: Date): Promise<Response> {
  return answer(db, await quoteByLink(db, token ?? '', now));
}

/** The same on a customer's page. @throws AppError not_found */
export async function quoteFileOnPage(db: Tx, { token = '', quote }: { token?: string; quote?: string }, now: Date): Promise<Response> {
  const page = await pageByLink(db, token, now);
  return answer(db, page && isId(quote) ? await quoteOnPage(db, page, quote, now) : null);
}

async function answer(db: Tx, quote: PrintedQuote | null): Promise<Response> {
  if (!quote) throw new AppError('not_found', DEAD_LINK);
  const photos = [];
  for (const { id, content } of await quotePhotos(db, quote.photoIds)) {
    const bytes = await pictures().get(content);
    if (bytes) photos.push({ id, bytes });
  }
  const given: Parameters<typeof quotePdf> = [quote, await shopSettings(db), photos];
  return paperFile({ kind: 'quote', given }, `quote-${quote.job.number}-${quote.version}`);
}
