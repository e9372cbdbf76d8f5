import { defineRoute } from '@/lib/server/doors/define-route';
import { quoteFileByLink } from '@/lib/server/papers/quote-file';
import { throttle } from '@/lib/server/doors/throttle';

export const dynamic = 'force-dynamic';

/** The same quote on paper, behind the same link. */
export const GET = defineRoute('public', async ({ db, now, params }) => {
  await throttle('link', 60);
  return quoteFileByLink(db, params.token, now);
});
