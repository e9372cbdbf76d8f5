import { defineRoute } from '@/lib/server/doors/define-route';
import { quoteFileOnPage } from '@/lib/server/papers/quote-file';
import { throttle } from '@/lib/server/doors/throttle';

export const dynamic = 'force-dynamic';

/** A quote of the page on paper. */
export const GET = defineRoute('public', async ({ db, now, params }) => {
  await throttle('link', 60);
  return quoteFileOnPage(db, params, now);
});
