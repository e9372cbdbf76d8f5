import { defineRoute } from '@/lib/server/doors/define-route';
import { quoteFile } from '@/lib/server/papers/quote-file';

export const dynamic = 'force-dynamic';

/** A quote on paper, for the office. */
export const GET = defineRoute('read:job', ({ db, params }) => quoteFile(db, params.id));
