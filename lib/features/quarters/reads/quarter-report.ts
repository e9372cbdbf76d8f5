import 'server-only';
import type { Language } from '../../../core/customer-words';
import { quarterForCustomer, type QuarterReport } from '../../../core/reports/quarter-for-customer';
import type { Quarter } from '../../../core/reports/quarter';
import type { ShopOnReport } from '../../../core/reports/visit-for-customer';
import { fromLocalDate, toLocalDate } from '../../../core/calendar/date-column';
import { quarterOf } from '../../../core/reports/quarter';
import type { Tx } from '../../../database/client';
import { hashToken, looksLikeToken } from '../../links/reads/link-token';
import { shopOnReport } from '../../reports/reads/customer-report';
import { quarterOnFile } from './quarter-on-file';

export type QuarterPaper = { report: QuarterReport; shop: ShopOnReport };
export type QuarterOnFile = QuarterPaper & { customer: { id: string; name: string; email: string; language: Language }; visits: number };

/** A customer's quarter in its language or another; null where the customer is not on file. */
export async function quarterReport(
  db: Tx,
  customerId: string,
  quarter: Quarter,
  { now, language }: { now: Date; language?: Language },
): Promise<QuarterOnFile | null> {
  const customer = await db.customer.findUnique({ where: { id: customerId } });
  if (!customer) return null;
  const kitchens = await quarterOnFile(db, customerId, quarter, now);
  const tongue = language ?? customer.language;
  return {
    report: quarterForCustomer(customer.name, quarter, kitchens, tongue),
    shop: await shopOnReport(db),
    customer: { id: customer.id, name: customer.name, email: customer.email, language: tongue },
    visits: kitchens.reduce((n, k) => n + k.visits.length, 0),
  };
}

/** The quarter behind a link; null for one unknown, expired, taken back or of a customer out of use, all alike. */
export async function quarterByLink(db: Tx, token: string, now: Date) {
  if (!looksLikeToken(token)) return null;
  const sent = await db.quarterSent.findUnique({
    where: { tokenHash: hashToken(token) },
    include: { customer: { select: { archivedAt: true } } },
  });
  if (!sent || sent.revokedAt || sent.expiresAt <= now || sent.customer.archivedAt) return null;
  return { id: sent.id, customerId: sent.customerId, quarter: quarterOf(toLocalDate(sent.startsOn)), language: sent.language };
}

/** Notes that somebody opened it: looking is what is noted, no page would call a verb for it. */
export const noteQuarterOpening = (db: Tx, id: string, now: Date) =>
  // eslint-disable-next-line no-restricted-syntax -- see above
  db.$executeRaw`UPDATE "QuarterSent" SET openings = openings + 1, "openedAt" = coalesce("openedAt", ${now}) WHERE id = ${id}::uuid`;

/** What was sent of a quarter, the newest first; of every quarter without one. */
export const quartersSent = (db: Tx, customerId: string, quarter?: Quarter) =>
  db.quarterSent.findMany({
    where: { customerId, ...(quarter ? { startsOn: fromLocalDate(quarter.startsOn) } : {}) },
    omit: { tokenHash: true },
    orderBy: { createdAt: 'desc' },
    take: 100,
  });
