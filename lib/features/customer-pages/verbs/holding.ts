import 'server-only';
import { DEAD_LINK } from '../../../core/customer-words';
import { AppError } from '../../../core/errors';
import type { Tx } from '../../../database/client';
import { pageByLink, type OpenPage } from '../reads/page-link';

export const deadLink = () => new AppError('not_found', DEAD_LINK);

/** The page of whoever acts on it. @throws AppError not_found */
export async function holding(db: Tx, token: string, now: Date): Promise<OpenPage> {
  const page = await pageByLink(db, token, now);
  if (!page) throw deadLink();
  return page;
}
