import 'server-only';
import { todayIn } from '../../../core/calendar';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { customerFullDate, customerMonths } from '../../../core/calendar/when';
import { wordsIn, type Language } from '../../../core/customer-words';
import { AppError } from '../../../core/errors';
import type { Quarter } from '../../../core/reports/quarter';
import type { Tx } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import type { RevokeQuarter, SendQuarter } from '../../../schemas/customers/quarters';
import { auditBy, writeAudit } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';
import { hashToken, newToken } from '../../links/reads/link-token';
import { shopSettings } from '../../shop/reads/settings';

const LASTS_MS = 180 * 24 * 3_600_000;

type At = { by: string | null; now: Date; baseUrl: string };

/** Makes the link and puts its letter in the outbox, inside the caller's transaction. `by` null: by itself. */
export async function putInOutbox(
  tx: Tx,
  customerId: string,
  quarter: Quarter,
  { toEmail, language }: { toEmail: string; language: Language },
  { by, now, baseUrl }: At,
): Promise<void> {
  const token = newToken();
  const expiresAt = new Date(now.getTime() + LASTS_MS);
  const customer = await tx.customer.findUniqueOrThrow({ where: { id: customerId }, select: { name: true } });
  await tx.quarterSent.create({
    data: {
      tokenHash: hashToken(token),
      customerId,
      startsOn: fromLocalDate(quarter.startsOn),
      language,
      toEmail,
      sentById: by,
      createdAt: now,
      expiresAt,
    },
  });
  const { letter } = wordsIn(language).quarter;
  const shop = await shopSettings(tx);
  const months = customerMonths(quarter.startsOn, language);
  const until = customerFullDate(todayIn(shop?.timeZone ?? 'UTC', expiresAt.getTime()), language);
  const text = [
    letter.text(customer.name, months, `${baseUrl}/quarter/${token}`, until),
    '',
    [shop?.name, shop?.phone, shop?.email].filter(Boolean).join(' · '),
  ].join('\n');
  await tx.outboxMessage.create({
    data: { kind: 'quarter_report', toEmail, subject: letter.subject(customer.name, months), text, createdAt: now },
  });
  await writeAudit(tx, {
    at: now,
    userId: by,
    action: 'customer.quarter_sent',
    entity: 'Customer',
    entityId: customerId,
    detail: { to: toEmail, quarter: quarter.startsOn },
  });
}

/** Sends a quarter's summary after somebody looked at it. Sent again, the earlier links still open. @throws AppError not_found | conflict */
export function sendQuarter({ db, actor, now, baseUrl }: ServiceContext & { baseUrl: string }, input: SendQuarter): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const { customerId, quarter } = input;
    const customer = await tx.customer.findFirst({ where: { id: customerId, archivedAt: null }, select: { id: true } });
    if (!customer) throw new AppError('not_found', 'That customer is not on file.');
    const shop = await shopSettings(tx);
    if (todayIn(shop?.timeZone ?? 'UTC', now.getTime()) < quarter.endsBefore)
      throw new AppError('conflict', 'The quarter is not over yet; its summary is not whole.');
    await putInOutbox(tx, customerId, quarter, input, { by: actor?.userId ?? null, now, baseUrl });
  });
}

/** Takes a link back: it opens no more. @throws AppError conflict */
export async function revokeQuarter({ db, actor, now }: ServiceContext, { id }: RevokeQuarter): Promise<void> {
  await withinTransaction(db, async (tx) => {
    const { count } = await tx.quarterSent.updateMany({ where: { id, revokedAt: null }, data: { revokedAt: now } });
    if (count === 0) throw new AppError('conflict', 'That link was taken back already.');
    const { customerId } = await tx.quarterSent.findUniqueOrThrow({ where: { id }, select: { customerId: true } });
    await auditBy(tx, { actor, now }, { action: 'customer.revoked', entity: 'Customer', entityId: customerId });
  });
}
