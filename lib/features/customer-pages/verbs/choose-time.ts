import 'server-only';
import { wordsIn } from '../../../core/customer-words';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import type { ChooseTimeOnPage } from '../../../schemas/jobs/quotes';
import { takeTime } from '../../jobs/verbs/choose-time';
import { quoteOnPage } from '../reads/on-page';
import { deadLink, holding } from './holding';

/** Chooses on the page when the work of an accepted quote is done, or asks for another time. @throws AppError not_found | not_allowed | conflict */
export async function chooseTimeOnPage(
  ctx: { db: Db; now: Date; baseUrl: string },
  { token, quoteId, ...choice }: ChooseTimeOnPage,
): Promise<void> {
  const page = await holding(ctx.db, token, ctx.now);
  if (!page.answersQuotes) throw new AppError('not_allowed', wordsIn(page.language).quote.answer.notYours);
  const quote = await quoteOnPage(ctx.db, page, quoteId, ctx.now);
  if (!quote) throw deadLink();
  await takeTime(ctx, quote, choice);
}
