import 'server-only';
import { customerFullDate, customerDay } from '../../../core/calendar/when';
import { todayIn } from '../../../core/calendar';
import { wordsIn, type Language } from '../../../core/customer-words';
import { fullKitchenName } from '../../../core/wording/kitchen-name';
import { AppError } from '../../../core/errors';
import type { Db, Tx } from '../../../database/client';
import { withinTransaction } from '../../../database/transaction';
import type { RevokeReport, SendReport } from '../../../schemas/customers/reports';
import { auditBy, writeAudit } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';
import { hashToken, newToken } from '../../links/reads/link-token';

const DAY_MS = 24 * 3_600_000;
const LASTS_MS = 180 * DAY_MS;

type At = { by: string | null; now: Date; baseUrl: string };

async function send(tx: Tx, visitId: string, { toEmail, language }: { toEmail: string; language: Language }, { by, now, baseUrl }: At) {
  const visit = await tx.visit.findUniqueOrThrow({
    where: { id: visitId },
    include: { kitchen: { include: { customer: { select: { name: true } } } } },
  });
  const token = newToken();
  const expiresAt = new Date(now.getTime() + LASTS_MS);
  const { id } = await tx.reportSent.create({
    data: { tokenHash: hashToken(token), visitId, language, toEmail, sentById: by, createdAt: now, expiresAt },
  });
  const { letter } = wordsIn(language);
  const zone = visit.kitchen.timeZone;
  const day = customerDay(visit.arrivedAt ?? visit.startsAt, zone, language);
  const shop = await tx.shopSettings.findUnique({ where: { id: 1 }, select: { name: true, phone: true, email: true } });
  const until = customerFullDate(todayIn(zone, expiresAt.getTime()), language);
  const text = [
    letter.text(visit.kitchen.name, day, `${baseUrl}/report/${token}`, until),
    '',
    [shop?.name, shop?.phone, shop?.email].filter(Boolean).join(' · '),
  ].join('\n');
  await tx.outboxMessage.create({
    data: { kind: 'visit_report', toEmail, subject: letter.subject(fullKitchenName(visit.kitchen), day), text, createdAt: now },
  });
  await writeAudit(tx, { at: now, userId: by, action: 'report.sent', entity: 'Visit', entityId: visitId, detail: { to: toEmail } });
  return { id };
}

/** Sends the report of a closed visit after somebody looked at it. Sent again, the earlier links still open. @throws AppError not_found | conflict */
export function sendReport({ db, actor, now, baseUrl }: ServiceContext & { baseUrl: string }, input: SendReport): Promise<void> {
  return withinTransaction(db, async (tx) => {
    const visit = await tx.visit.findUnique({ where: { id: input.visitId }, select: { status: true } });
    if (!visit) throw new AppError('not_found', 'That visit is not on file.');
    if (visit.status !== 'done') throw new AppError('conflict', 'The visit is not closed yet; its report is not whole.');
    await send(tx, input.visitId, input, { by: actor?.userId ?? null, now, baseUrl });
  });
}

/** Takes a link back: it opens no more. @throws AppError conflict */
export async function revokeReport({ db, actor, now }: ServiceContext, { id }: RevokeReport): Promise<void> {
  await withinTransaction(db, async (tx) => {
    const { count } = await tx.reportSent.updateMany({ where: { id, revokedAt: null }, data: { revokedAt: now } });
    if (count === 0) throw new AppError('conflict', 'That link was taken back already.');
    const { visitId } = await tx.reportSent.findUniqueOrThrow({ where: { id }, select: { visitId: true } });
    await auditBy(tx, { actor, now }, { action: 'report.revoked', entity: 'Visit', entityId: visitId });
  });
}

/** After this, what a tablet still held has come in. */
const SETTLED_MS = 30 * 60_000;

/** Sends the reports that go out by themselves, each once. @returns how many */
export async function sendDueReports({ db, now, baseUrl }: { db: Db; now: Date; baseUrl: string }): Promise<number> {
  const due = await db.visit.findMany({
    where: {
      status: 'done',
      closedAt: { lt: new Date(now.getTime() - SETTLED_MS), gt: new Date(now.getTime() - 7 * DAY_MS) },
      reportsSent: { none: {} },
      kitchen: { customer: { sendsReports: true, NOT: { email: '' } } },
    },
    select: { id: true, kitchen: { select: { customer: { select: { email: true, language: true } } } } },
    take: 50,
  });
  let sent = 0;
  for (const { id, kitchen } of due)
    sent += await withinTransaction(db, async (tx) => {
      // Two processes may look at the same moment: the row says which was first.
      await tx.$queryRaw`SELECT id FROM "Visit" WHERE id = ${id}::uuid FOR UPDATE`;
      if ((await tx.reportSent.count({ where: { visitId: id } })) > 0) return 0;
      await send(tx, id, { toEmail: kitchen.customer.email, language: kitchen.customer.language }, { by: null, now, baseUrl });
      return 1;
    });
  return sent;
}
