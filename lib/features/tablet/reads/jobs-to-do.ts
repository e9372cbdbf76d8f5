import 'server-only';
import type { JobOnVisit, QuotedPart } from '../../../core/tablet';
import type { Tx } from '../../../database/client';
import { STORED_QUOTE } from '../../../database/stored/quotes';

type Visit = { id: string; kitchenId: string; status: string };

/**
 * The jobs that a technician meets at some visits: those booked on them, those they said something of, and at a visit that is
 * not over whatever else is open in its kitchen and waits for nothing but somebody coming.
 */
export async function jobsToDo(db: Tx, visits: readonly Visit[]): Promise<(visit: Visit) => JobOnVisit[]> {
  const ids = visits.map((v) => v.id);
  const rows = await db.job.findMany({
    where: {
      OR: [
        { visitId: { in: ids } },
        { outcomes: { some: { visitId: { in: ids } } } },
        {
          kitchenId: { in: visits.map((v) => v.kitchenId) },
          state: { in: ['asked', 'looked_at', 'agreed'] },
          needsQuote: false,
          partsWanted: false,
        },
      ],
    },
    orderBy: [{ urgency: 'asc' }, { number: 'asc' }],
    include: {
      units: { select: { unitId: true }, orderBy: { unitId: 'asc' } },
      outcomes: { select: { visitId: true } },
      quotes: {
        where: { sentAt: { not: null }, supersededAt: null, OR: [{ answer: null }, { answer: 'accepted' }] },
        orderBy: { version: 'desc' },
        take: 1,
        select: { lines: true },
      },
    },
  });
  const parts = await partsOfQuotes(
    db,
    rows.flatMap((j) => j.quotes),
  );
  return (visit) =>
    rows
      .filter(
        (j) =>
          j.visitId === visit.id ||
          j.outcomes.some((o) => o.visitId === visit.id) ||
          (j.kitchenId === visit.kitchenId &&
            j.state !== 'booked' &&
            j.closedAt === null &&
            (visit.status === 'booked' || visit.status === 'started')),
      )
      // Found at this very visit, it is among what was wanted there.
      .filter((j) => j.foundVisitId !== visit.id || j.visitId === visit.id)
      .map(({ id, number, what, note, urgency, units, visitId, quotes }) => ({
        id,
        number,
        what,
        note,
        urgency,
        booked: visitId === visit.id,
        unitIds: units.map((u) => u.unitId),
        ...(quotes[0] ? { parts: parts(quotes[0].lines) } : {}),
      }));
}

type StoredLines = Parameters<typeof STORED_QUOTE.read>[0];

/** The parts that quotes count on, as the list has them. */
async function partsOfQuotes(db: Tx, quotes: readonly { lines: StoredLines }[]): Promise<(lines: StoredLines) => QuotedPart[]> {
  const partLines = (lines: StoredLines) => STORED_QUOTE.read(lines).lines.filter((l) => l.kind === 'part');
  const numbers = quotes.flatMap((q) => partLines(q.lines).flatMap((l) => (l.partNumber ? [l.partNumber] : [])));
  const onList = numbers.length ? await db.part.findMany({ where: { number: { in: numbers } }, select: { id: true, number: true } }) : [];
  const idOf = new Map(onList.map((p) => [p.number, p.id]));
  return (lines) =>
    partLines(lines).map(({ partNumber, what, quantity }) => ({
      partId: idOf.get(partNumber) ?? null,
      number: partNumber,
      what,
      quantity,
    }));
}
