import 'server-only';
import { shopSettings } from '../../shop/reads/settings';
import { money } from '../../../core/measures/figures';
import { todayIn } from '../../../core/calendar';
import { toLocalDate } from '../../../core/calendar/date-column';
import { customerFullDate } from '../../../core/calendar/when';
import { wordsIn } from '../../../core/customer-words';
import { fullKitchenName } from '../../../core/wording/kitchen-name';
import { AppError } from '../../../core/errors';
import type { Actor } from '../../../core/people/access';
import type { Db } from '../../../database/client';
import type { SendQuote } from '../../../schemas/jobs/quotes';
import { hashToken, newToken } from '../../links/reads/link-token';
import { goOn } from './go-on';

/**
 * Sends a quote: its link is made, the version before it no longer opens, the job waits for the customer, and a mail goes
 * into the outbox where there is an address. The link is told once, here.
 * @throws AppError not_found | conflict | invalid
 */
export async function sendQuote(
  { db, actor, now, baseUrl }: { db: Db; actor: Pick<Actor, 'userId'>; now: Date; baseUrl: string },
  { quoteId, to }: SendQuote,
): Promise<{ link: string; mailed: boolean }> {
  const token = newToken();
  const link = `${baseUrl}/quote/${token}`;
  return db.$transaction(async (tx) => {
    const found = await tx.quote.findUnique({ where: { id: quoteId }, select: { jobId: true } });
    if (!found) throw new AppError('not_found', 'That quote is not on file.');
    await tx.$queryRaw`SELECT id FROM "Job" WHERE id = ${found.jobId}::uuid FOR UPDATE`;
    const quote = await tx.quote.findUniqueOrThrow({
      where: { id: quoteId },
      include: { job: { include: { kitchen: { include: { customer: true } } } } },
    });
    const { job } = quote;
    if (quote.sentAt) throw new AppError('conflict', 'This version was sent already. Write a new one to change it.');
    const validUntil = toLocalDate(quote.validUntil);
    if (validUntil < todayIn(job.kitchen.timeZone, now.getTime()))
      throw new AppError('invalid', 'It would be past its date already. Give it a later one.', 'validUntil');
    await tx.quote.updateMany({
      where: { jobId: job.id, id: { not: quoteId }, sentAt: { not: null }, answeredAt: null, supersededAt: null },
      data: { supersededAt: now, tokenHash: null },
    });
    await tx.quote.update({ where: { id: quoteId }, data: { sentAt: now, sentTo: to, tokenHash: hashToken(token) } });
    const total = money(quote.totalCents, quote.currency);
    await goOn(tx, job, {
      to: 'quoted',
      reason: `Version ${quote.version}, ${total}${to ? `, to ${to}` : ''}`,
      at: now,
      by: actor.userId,
      change: { needsQuote: true },
    });
    if (to) {
      const { language } = job.kitchen.customer;
      const say = wordsIn(language);
      const { letter } = say.quote;
      const shop = await shopSettings(tx);
      const shopName = shop?.name ?? say.visit.someShop;
      await tx.outboxMessage.create({
        data: {
          kind: 'quote_sent',
          toEmail: to,
          subject: letter.subject(fullKitchenName(job.kitchen), job.what.slice(0, 80)),
          text: [
            quote.reason,
            '',
            letter.total(total, customerFullDate(validUntil, language)),
            '',
            letter.open(link),
            '',
            [shopName, shop?.phone, shop?.email].filter(Boolean).join(' · '),
          ].join('\n'),
          createdAt: now,
        },
      });
    }
    return { link, mailed: to !== '' };
  });
}
