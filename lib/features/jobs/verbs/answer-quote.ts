import 'server-only';
import { DEAD_LINK, wordsIn } from '../../../core/customer-words';
import { AppError } from '../../../core/errors';
import { canGo } from '../../../core/jobs';
import { groupBy } from '../../../core/numerics/group-by';
import { inVans } from '../../../core/parts';
import type { Db, Tx } from '../../../database/client';
import type { AnswerQuote } from '../../../schemas/jobs/quotes';
import { quoteByLink, type PrintedQuote } from '../reads/quotes';
import { goOn } from './go-on';

/**
 * The customer accepts or declines by name, once. Accepted, the job waits for its parts where the list has too few of them,
 * else for a date.
 * @throws AppError not_found | conflict
 */
export async function answerQuote({ db, now }: { db: Db; now: Date }, input: AnswerQuote): Promise<void> {
  await db.$transaction(async (tx) => {
    const quote = await quoteByLink(tx, input.token, now);
    if (!quote) throw new AppError('not_found', DEAD_LINK);
    await takeAnswer(tx, quote, input, now, wordsIn(quote.job.kitchen.customer.language).quote.answer.twice);
  });
}

/** Writes down the answer to a quote that somebody may answer. @throws AppError conflict — with `twice` as its words */
export async function takeAnswer(
  tx: Tx,
  quote: PrintedQuote,
  { answer, name, note }: Omit<AnswerQuote, 'token'>,
  now: Date,
  twice: string,
): Promise<void> {
  const { count } = await tx.quote.updateMany({
    where: { id: quote.id, answeredAt: null },
    data: { answer, answeredAt: now, answeredBy: name, answerNote: note },
  });
  if (count === 0) throw new AppError('conflict', twice);
  const { job } = quote;
  const to = answer === 'accepted' ? 'agreed' : 'declined';
  const step = {
    reason: note || `${answer === 'accepted' ? 'Accepted' : 'Declined'} by ${name} on the quote’s page.`,
    at: now,
    by: null,
    byName: name,
  };
  // A job that went on by telephone meanwhile keeps where it stands; the answer is on the quote.
  if (job.state !== 'quoted' || !canGo(job.state, to)) {
    await tx.jobEvent.create({ data: { jobId: job.id, at: now, kind: 'changed', reason: step.reason, byName: name } });
    return;
  }
  const change = answer === 'accepted' ? { needsQuote: false, partsWanted: await shortOfParts(tx, quote.lines) } : {};
  await goOn(tx, job, { ...step, to, change });
}

/** Whether the list of parts holds fewer than the quote counts on, all its lines of a part together. */
async function shortOfParts(tx: Tx, lines: PrintedQuote['lines']): Promise<boolean> {
  const wanted = groupBy(
    lines.filter((l) => l.partNumber !== ''),
    (l) => l.partNumber,
  );
  const parts = await tx.part.findMany({ where: { number: { in: [...wanted.keys()] } }, include: { vans: true } });
  return parts.some((part) => {
    const quantity = (wanted.get(part.number) ?? []).reduce((sum, l) => sum + l.quantity, 0);
    return inVans(part) + part.inShop < quantity;
  });
}
