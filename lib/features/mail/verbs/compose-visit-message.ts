import 'server-only';
import { shopSettings } from '../../shop/reads/settings';
import { customerDay, customerTime } from '../../../core/calendar/when';
import { wordsIn } from '../../../core/customer-words';
import { taskWords } from '../../../core/reports/customer-lines';
import { fullKitchenName } from '../../../core/wording/kitchen-name';
import { COIL_CLEANING } from '../../../core/tasks/kinds';
import type { Prisma, Tx } from '../../../database/client';
import { hashToken, newToken } from '../../links/reads/link-token';
import { invitation } from './invitation';

export type VisitNews = 'booked' | 'moved' | 'cancelled' | 'reminder';

const VISIT = {
  kitchen: { include: { customer: true } },
  technician: true,
  tasks: { include: { task: { include: { unit: true, kind: true } } } },
} satisfies Prisma.VisitInclude;
type VisitRow = Prisma.VisitGetPayload<{ include: typeof VISIT }>;

/**
 * Puts the message about a visit in the outbox, inside the caller's transaction, so that it can neither be lost nor
 * sent for a change that did not happen. @returns false where the kitchen has no e-mail on file, and nothing is written
 */
export async function composeVisitMessage(tx: Tx, visitId: string, news: VisitNews, at: { now: Date; baseUrl: string }): Promise<boolean> {
  const visit = await tx.visit.findUniqueOrThrow({ where: { id: visitId }, include: VISIT });
  const { kitchen } = visit;
  const to = kitchen.contactEmail || kitchen.customer.email;
  if (!to) return false;
  const { language } = kitchen.customer;
  const texts = wordsIn(language);
  const say = texts.visit;
  const shop = await shopOf(tx, say.someShop);
  const clock = (at: Date) => customerTime(at, kitchen.timeZone, language);
  const time = say.when(customerDay(visit.startsAt, kitchen.timeZone, language), clock(visit.startsAt), clock(visit.endsAt));
  const link = await freshLink(tx, visit, news, at);
  const work = [
    ...new Set(visit.tasks.map(({ task: t }) => say.work(t.unit.name, taskWords(texts, { kind: t.kindKey, label: t.kind.label })))),
  ].sort();
  const { method, text: ics } = invitation(
    {
      id: visit.id,
      sequence: visit.sequence,
      startsAt: visit.startsAt,
      endsAt: visit.endsAt,
      createdAt: visit.createdAt,
      summary: `${shop.name}: ${kitchen.name}`,
      description: work.join('\n'),
      location: kitchen.address,
      cancelled: news === 'cancelled',
    },
    {
      organizer: { name: shop.name, email: shop.email || 'office@rimebook.invalid' },
      attendee: { name: kitchen.contactName || kitchen.name, email: to },
    },
    at.now,
  );
  await tx.outboxMessage.create({
    data: {
      kind: `visit_${news}`,
      toEmail: to,
      subject: say.headline(say.subject[news], fullKitchenName(kitchen), time),
      text: [whatWords(visit, news, shop.name, time), '', ...workWords(visit, work, link), '', shop.signature].join('\n'),
      ics,
      icsMethod: method,
      visitId,
      createdAt: at.now,
    },
  });
  return true;
}

async function shopOf(tx: Tx, unnamed: string): Promise<{ name: string; email: string; signature: string }> {
  const shop = await shopSettings(tx);
  const name = shop?.name ?? unnamed;
  return { name, email: shop?.email ?? '', signature: [name, shop?.phone, shop?.email].filter(Boolean).join(' · ') };
}

/** The address where the customer answers; null where there is nothing to answer. */
async function freshLink(
  tx: Tx,
  visit: VisitRow,
  news: VisitNews,
  { now, baseUrl }: { now: Date; baseUrl: string },
): Promise<string | null> {
  // A reminder leaves the links of before alive: nothing has changed.
  if (news !== 'reminder') await tx.customerLink.updateMany({ where: { visitId: visit.id, revokedAt: null }, data: { revokedAt: now } });
  if (news === 'cancelled') return null;
  const token = newToken();
  await tx.customerLink.create({ data: { tokenHash: hashToken(token), visitId: visit.id, expiresAt: visit.startsAt, createdAt: now } });
  return `${baseUrl}/visit/${token}`;
}

function whatWords({ kitchen, technician, cancelReason }: VisitRow, news: VisitNews, shop: string, time: string): string {
  const say = wordsIn(kitchen.customer.language).visit;
  if (news === 'cancelled') return say.cancelled(kitchen.name, time, cancelReason);
  const comes = say.comes(technician.name, shop, kitchen.name, time);
  return news === 'reminder' ? say.tomorrow(comes) : comes;
}

function workWords({ tasks, kitchen }: VisitRow, work: readonly string[], link: string | null): string[] {
  if (link === null) return [];
  const say = wordsIn(kitchen.customer.language).visit;
  const cleans = tasks.some((t) => t.task.kindKey === COIL_CLEANING);
  return [say.lookAfter, ...work.map((w) => `- ${w}`), '', ...(cleans ? [say.power, ''] : []), say.answer(link)];
}
