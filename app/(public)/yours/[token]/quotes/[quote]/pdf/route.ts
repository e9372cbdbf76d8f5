import { defineRoute } from '@/lib/server/define-route';
import { quoteFileOnPage } from '@/lib/server/quote-file';
import { throttle } from '@/lib/server/throttle';

export const dynamic = 'force-dynamic';

/** A quote of the page on paper. */
export const GET = defineRoute('public', async ({ db, now, params }) => {
  await throttle('link', 60);
  return quoteFileOnPage(db, params, now);
});
