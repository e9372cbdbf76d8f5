import 'server-only';
import { wordsIn } from '../../../core/customer-words';
import { AppError } from '../../../core/errors';
import type { Tx } from '../../../database/client';
import { pageByLink, type OpenPage } from '../reads/page-link';

/** What whoever has no good link is told, whatever is wrong with it. */
export const deadLink = () => new AppError('not_found', `${wordsIn('en').deadLink.text} ${wordsIn('es').deadLink.text}`);

/** The page of whoever acts on it. @throws AppError not_found */
export async function holding(db: Tx, token: string, now: Date): Promise<OpenPage> {
  const page = await pageByLink(db, token, now);
  if (!page) throw deadLink();
  return page;
}
