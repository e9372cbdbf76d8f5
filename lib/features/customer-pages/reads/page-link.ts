import 'server-only';
import type { Language } from '../../../core/customer-words';
import type { Tx } from '../../../database/client';
import { hashToken, looksLikeToken } from '../../links/reads/link-token';

/** A page that a link opens: whose it is, and the kitchens it may show. Nothing else is ever shown on it. */
export type OpenPage = {
  id: string;
  language: Language;
  holder: string;
  answersQuotes: boolean;
  customer: { id: string; name: string };
  /** Every kitchen of the customer, rather than one. */
  all: boolean;
  kitchens: { id: string; name: string; timeZone: string }[];
};

const WITH_KITCHENS = {
  customer: {
    include: {
      kitchens: { where: { archivedAt: null }, orderBy: { name: 'asc' }, select: { id: true, name: true, timeZone: true } },
    },
  },
} as const;

async function opened(db: Tx, where: { tokenHash: string } | { feedHash: string }, now: Date): Promise<OpenPage | null> {
  const page = await db.customerPage.findUnique({ where, include: WITH_KITCHENS });
  if (!page || page.revokedAt || page.expiresAt <= now || page.customer.archivedAt) return null;
  const kitchens = page.customer.kitchens.filter((k) => page.kitchenId === null || k.id === page.kitchenId);
  if (kitchens.length === 0) return null;
  const { id, language, holder, answersQuotes, customer, kitchenId } = page;
  return { id, language, holder, answersQuotes, customer: { id: customer.id, name: customer.name }, all: kitchenId === null, kitchens };
}

/** The page behind a link; null for one unknown, expired, taken back or of a customer out of use, all alike. */
export const pageByLink = async (db: Tx, token: string, now: Date): Promise<OpenPage | null> =>
  looksLikeToken(token) ? opened(db, { tokenHash: hashToken(token) }, now) : null;

/** The page whose calendar this address is; null as above. */
export const pageByCalendar = async (db: Tx, token: string, now: Date): Promise<OpenPage | null> =>
  looksLikeToken(token) ? opened(db, { feedHash: hashToken(token) }, now) : null;

export const kitchenIds = (page: OpenPage): string[] => page.kitchens.map((k) => k.id);

/** Notes that somebody opened it: looking is what is noted, no page would call a verb for it. */
export const notePageOpening = (db: Tx, id: string, now: Date) =>
  // eslint-disable-next-line no-restricted-syntax -- see above
  db.$executeRaw`UPDATE "CustomerPage" SET openings = openings + 1, "openedAt" = coalesce("openedAt", ${now}), "lastOpenedAt" = ${now} WHERE id = ${id}::uuid`;

/** The links of a customer's pages, the newest first, for the office. */
export const pagesOf = (db: Tx, customerId: string) =>
  db.customerPage.findMany({
    where: { customerId },
    omit: { tokenHash: true, feedHash: true },
    orderBy: { createdAt: 'desc' },
    include: { kitchen: { select: { name: true } } },
    take: 100,
  });
