import { AppError } from '@/lib/core/errors';
import { isId } from '@/lib/core/ids/is-id';
import { defineRoute } from '@/lib/server/define-route';
import { quoteFile } from '@/lib/server/quote-file';
import { quoteById } from '@/lib/features/jobs/reads/quotes';

export const dynamic = 'force-dynamic';

/** A quote on paper, for the office. */
export const GET = defineRoute('read:job', async ({ db, params }) => {
  const quote = isId(params.id) ? await quoteById(db, params.id) : null;
  if (!quote) throw new AppError('not_found', 'That quote is not on file.');
  return quoteFile(db, quote);
});
