import 'server-only';
import { wordsIn } from '../../../core/customer-words';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import type { AnswerQuoteOnPage } from '../../../schemas/customers/customer-pages';
import { takeAnswer } from '../../jobs/verbs/answer-quote';
import { quoteOnPage } from '../reads/on-page';
import { deadLink, holding } from './holding';

/** Accepts or declines a quote on the page, by name, once. @throws AppError not_found | not_allowed | conflict */
export function answerQuoteOnPage({ db, now }: { db: Db; now: Date }, input: AnswerQuoteOnPage): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const page = await holding(tx, input.token, now);
    const say = wordsIn(page.language).quote.answer;
    if (!page.answersQuotes) throw new AppError('not_allowed', say.notYours);
    const quote = await quoteOnPage(tx, page, input.quoteId, now);
    if (!quote) throw deadLink();
    await takeAnswer(tx, quote, input, now, say.twice);
  });
}
