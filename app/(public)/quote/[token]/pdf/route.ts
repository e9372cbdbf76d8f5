import { AppError } from '@/lib/core/errors';
import { defineRoute } from '@/lib/server/define-route';
import { quoteFile } from '@/lib/server/quote-file';
import { throttle } from '@/lib/server/throttle';
import { quoteByLink } from '@/lib/features/jobs/reads/quotes';

export const dynamic = 'force-dynamic';

/** The same quote on paper, behind the same link. */
export const GET = defineRoute('public', async ({ db, now, params }) => {
  await throttle('link', 60);
  const quote = await quoteByLink(db, params.token ?? '', now);
  if (!quote) throw new AppError('not_found', 'This link is no longer good. Use the one in the latest message, or phone the shop.');
  return quoteFile(db, quote);
});
