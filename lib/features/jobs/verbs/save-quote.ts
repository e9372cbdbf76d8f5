import 'server-only';
import { isOpen, quoteSums } from '../../../core/jobs';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { AppError } from '../../../core/errors';
import type { Actor } from '../../../core/people/access';
import type { Db } from '../../../database/client';
import { STORED_QUOTE, type QuotedLine } from '../../../database/stored/quotes';
import type { SaveQuote } from '../../../schemas/jobs/quotes';

/**
 * Writes a job's quote: over the draft where there is one, else as a new version. What was sent stays as it is.
 * @throws AppError not_found | conflict
 */
export async function saveQuote(
  { db, actor, now }: { db: Db; actor: Pick<Actor, 'userId'>; now: Date },
  input: SaveQuote,
): Promise<{ quoteId: string }> {
  const { jobId, taxPercent, reason } = input;
  const lines = await pricedLines(db, input.lines);
  const { netCents, taxCents, totalCents } = quoteSums(lines, taxPercent);
  return db.$transaction(async (tx) => {
    await tx.$queryRaw`SELECT id FROM "Job" WHERE id = ${jobId}::uuid FOR UPDATE`;
    const job = await tx.job.findUnique({ where: { id: jobId }, include: { quotes: { orderBy: { version: 'desc' }, take: 1 } } });
    if (!job) throw new AppError('not_found', 'That job is not on file.');
    if (!isOpen(job.state)) throw new AppError('conflict', 'That job is closed. Nothing is quoted for it any more.');
    const shop = await tx.shopSettings.findUnique({ where: { id: 1 }, select: { currency: true } });
    const photos = await tx.photo.findMany({
      where: { id: { in: input.photoIds }, fileId: { not: null }, visit: { kitchenId: job.kitchenId } },
      select: { id: true },
    });
    const content = {
      lines: STORED_QUOTE.write({ lines }),
      taxPercent,
      netCents,
      taxCents,
      totalCents,
      reason,
      currency: shop?.currency ?? 'USD',
      validUntil: fromLocalDate(input.validUntil),
      photoIds: photos.map((p) => p.id),
    };
    const [last] = job.quotes;
    await tx.job.update({ where: { id: jobId }, data: { needsQuote: true } });
    if (last && !last.sentAt) {
      await tx.quote.update({ where: { id: last.id }, data: content });
      return { quoteId: last.id };
    }
    const made = await tx.quote.create({
      data: { ...content, jobId, version: (last?.version ?? 0) + 1, createdById: actor.userId, createdAt: now },
    });
    return { quoteId: made.id };
  });
}

/** Lines with what the list of parts says of a number where name or price were left out. @throws AppError invalid */
async function pricedLines(db: Db, lines: SaveQuote['lines']): Promise<QuotedLine[]> {
  const open = lines.filter((l) => l.partNumber !== '' && (l.what === '' || l.price === undefined));
  const parts = await db.part.findMany({ where: { number: { in: open.map((l) => l.partNumber) }, archivedAt: null } });
  return lines.map(({ price, quantity = 1, what, ...line }) => {
    const part = parts.find((p) => p.number === line.partNumber);
    const priceCents = price ?? part?.priceCents;
    const name = what || part?.name;
    if (priceCents === undefined || !name)
      throw new AppError('invalid', `${line.partNumber} is not on the list of parts. Say what it is and what it costs.`, 'lines');
    return { ...line, what: name, quantity, priceCents };
  });
}
