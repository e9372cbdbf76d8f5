import 'server-only';
import { todayIn } from '../../../core/calendar';
import { toLocalDate } from '../../../core/calendar/date-column';
import type { Tx } from '../../../database/client';
import { STORED_QUOTE } from '../../../database/stored/quotes';
import { hashToken, looksLikeToken } from '../../links/reads/link-token';

const PRINTED = {
  job: {
    select: {
      id: true,
      number: true,
      what: true,
      state: true,
      needsQuote: true,
      partsWanted: true,
      timeAsked: true,
      kitchenId: true,
      kitchen: { select: { name: true, address: true, timeZone: true, customer: { select: { name: true, language: true } } } },
      units: { select: { unit: { select: { name: true, tag: true, refrigerant: true, roofWork: true } } } },
      visit: { select: { startsAt: true, endsAt: true, technician: { select: { name: true } } } },
    },
  },
} as const;

/** A quote as it is printed, or null. */
export async function quoteById(db: Tx, id: string) {
  const quote = await db.quote.findUnique({ where: { id }, include: PRINTED });
  return quote && { ...quote, ...STORED_QUOTE.read(quote.lines) };
}
export type PrintedQuote = NonNullable<Awaited<ReturnType<typeof quoteById>>>;

/** The quote behind a customer's link; null for one unknown, replaced, or past its date without an answer: nobody hears which. */
export async function quoteByLink(db: Tx, token: string, now: Date): Promise<PrintedQuote | null> {
  if (!looksLikeToken(token)) return null;
  const quote = await db.quote.findUnique({ where: { tokenHash: hashToken(token) }, include: PRINTED });
  if (!quote?.sentAt || quote.supersededAt) return null;
  const over = toLocalDate(quote.validUntil) < todayIn(quote.job.kitchen.timeZone, now.getTime());
  return over && !quote.answeredAt ? null : { ...quote, ...STORED_QUOTE.read(quote.lines) };
}

/** Notes that somebody opened it, while it waits for an answer: looking is what is noted, no page would call a verb for it. */
export const noteQuoteOpening = (db: Tx, id: string, now: Date) =>
  // eslint-disable-next-line no-restricted-syntax -- see above
  db.$executeRaw`UPDATE "Quote" SET openings = openings + 1, "openedAt" = coalesce("openedAt", ${now}) WHERE id = ${id}::uuid AND "sentAt" IS NOT NULL AND "answeredAt" IS NULL`;

/** The pictures of a quote in the order chosen: small as a page shows them, and under what each is kept whole. */
export async function quotePhotos(db: Tx, photoIds: readonly string[]) {
  const photos = await db.photo.findMany({
    where: { id: { in: [...photoIds] }, fileId: { not: null } },
    select: { id: true, takenAt: true, file: { select: { mime: true, content: true, thumbnail: true } } },
  });
  return photoIds.flatMap((id) => {
    const photo = photos.find((p) => p.id === id);
    return photo?.file ? [{ id, takenAt: photo.takenAt, ...photo.file, thumbnail: Buffer.from(photo.file.thumbnail) }] : [];
  });
}

/** Pictures of a job's units, the newest first, to choose from. */
export const photosToChoose = (db: Tx, kitchenId: string, unitIds: readonly string[]) =>
  db.photo.findMany({
    where: { fileId: { not: null }, visit: { kitchenId }, ...(unitIds.length > 0 ? { unitId: { in: [...unitIds] } } : {}) },
    orderBy: { takenAt: 'desc' },
    take: 12,
    select: { id: true, fileId: true, takenAt: true, aspect: true },
  });

/** What an hour, a trip and the tax were on the shop's last quotes, price in cents; null where none had such a line. */
export async function usualPrices(db: Tx): Promise<{ labour: number | null; trip: number | null; taxPercent: number }> {
  const rows = await db.quote.findMany({
    where: { sentAt: { not: null } },
    orderBy: { sentAt: 'desc' },
    take: 20,
    select: { lines: true, taxPercent: true },
  });
  const lines = rows.flatMap((q) => STORED_QUOTE.read(q.lines).lines);
  const last = (kind: 'labour' | 'trip') => lines.find((l) => l.kind === kind)?.priceCents ?? null;
  return { labour: last('labour'), trip: last('trip'), taxPercent: rows[0]?.taxPercent ?? 0 };
}

/** Every sent quote with its lines, for a bookkeeping program: the newest first. */
export async function quotesToExport(db: Tx): Promise<PrintedQuote[]> {
  const quotes = await db.quote.findMany({
    where: { sentAt: { not: null } },
    orderBy: [{ sentAt: 'desc' }, { id: 'asc' }],
    include: PRINTED,
  });
  return quotes.map((q) => ({ ...q, ...STORED_QUOTE.read(q.lines) }));
}
