import { defineRoute } from '@/lib/server/define-route';
import { quoteFile } from '@/lib/server/quote-file';

export const dynamic = 'force-dynamic';

/** A quote on paper, for the office. */
export const GET = defineRoute('read:job', ({ db, params }) => quoteFile(db, params.id));
