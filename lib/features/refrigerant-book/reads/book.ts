import 'server-only';
import { instantOf, localDate, todayIn, type LocalDate } from '../../../core/calendar';
import { cylinderBalance, yearTotals, type CylinderWay, type GasYear, type Weighing } from '../../../core/refrigerant-book';
import { REFRIGERANTS } from '../../../core/refrigerants/catalogue';
import type { Tx } from '../../../database/client';
import type { Prisma } from '../../../database/generated/client';

const WITH = {
  withUser: { select: { id: true, name: true } },
  entries: { orderBy: [{ at: 'asc' }, { id: 'asc' }] },
} as const satisfies Prisma.CylinderInclude;
type Row = Prisma.CylinderGetPayload<{ include: typeof WITH }>;

/** A cylinder with what the book says is in it, and what the scale last said. Masses in kg. */
function balanced(c: Row, timeZone: string) {
  const weighings = c.entries.map((e): Weighing => ({ on: todayIn(timeZone, e.at.getTime()), kg: e.kg, way: e.way }));
  // What came after the last weighing says nothing of the scale.
  const last = c.entries.findLastIndex((e) => e.grossAfterKg !== null);
  const gross = c.entries[last]?.grossAfterKg ?? null;
  const then = cylinderBalance(c, weighings.slice(0, last + 1), gross);
  const now = cylinderBalance(c, weighings, null);
  const verdict = now.verdict === 'not_weighed' ? then.verdict : now.verdict;
  const { id, label, refrigerant, contents, tareKg, mostKg, firstKg, note, goneAt, goneWhy, version, withUser, createdAt } = c;
  return {
    id, label, refrigerant, contents, tareKg, mostKg, firstKg, note, goneAt, goneWhy, version, createdAt, where: withUser,
    bookKg: now.bookKg, differenceKg: then.differenceKg, sdKg: then.sdKg, weighedAt: c.entries[last]?.at ?? null, verdict,
  }; // prettier-ignore
}
export type CylinderInBook = ReturnType<typeof balanced>;

/** Those in use, then those that are gone. */
export async function cylinders(db: Tx, timeZone: string): Promise<CylinderInBook[]> {
  const rows = await db.cylinder.findMany({
    include: WITH,
    orderBy: [{ goneAt: { sort: 'asc', nulls: 'first' } }, { refrigerant: 'asc' }, { label: 'asc' }],
  });
  return rows.map((c) => balanced(c, timeZone));
}

const ENTRY = {
  by: { select: { name: true } },
  unit: { select: { id: true, name: true, tag: true, kitchen: { select: { name: true, customer: { select: { name: true } } } } } },
  certificate: { select: { kind: true, number: true } },
  corrected: { select: { id: true } },
  cylinder: { select: { label: true, refrigerant: true } },
} as const satisfies Prisma.CylinderEntryInclude;
export type BookEntry = Prisma.CylinderEntryGetPayload<{ include: typeof ENTRY }>;

export async function cylinderWithEntries(
  db: Tx,
  id: string,
  timeZone: string,
): Promise<{ cylinder: CylinderInBook; entries: BookEntry[] } | null> {
  const row = await db.cylinder.findUnique({ where: { id }, include: WITH });
  if (!row) return null;
  const entries = await db.cylinderEntry.findMany({ where: { cylinderId: id }, include: ENTRY, orderBy: [{ at: 'desc' }, { id: 'desc' }] });
  return { cylinder: balanced(row, timeZone), entries };
}

const span = (year: number, timeZone: string) => ({
  gte: new Date(instantOf(localDate(`${year}-01-01`), '00:00', timeZone)),
  lt: new Date(instantOf(localDate(`${year + 1}-01-01`), '00:00', timeZone)),
});

export const gwpOf = (gas: string): number | null => REFRIGERANTS[gas]?.gwpAR4 ?? null;
/** Whose figures those are. */
export const GWP_REPORT = 'IPCC AR4 (2007), 100 years';

/** A year of the book by gas; a line that was taken back does not count, in whichever year that was. */
export async function yearOfBook(db: Tx, year: number, timeZone: string): Promise<GasYear[]> {
  const rows = await db.cylinderEntry.findMany({
    where: { at: span(year, timeZone), correctsId: null, corrected: null },
    select: { way: true, kg: true, cylinder: { select: { refrigerant: true } } },
  });
  const lines = rows.map((r): { gas: string; kg: number; way: CylinderWay } => ({ gas: r.cylinder.refrigerant, kg: r.kg, way: r.way }));
  return yearTotals(lines, gwpOf);
}

/** Every line of a year, oldest first, for the file. */
export const linesOfYear = (db: Tx, year: number, timeZone: string): Promise<BookEntry[]> =>
  db.cylinderEntry.findMany({ where: { at: span(year, timeZone) }, include: ENTRY, orderBy: [{ at: 'asc' }, { id: 'asc' }] });

/** Years that have lines, the latest first; this year always. */
export async function yearsOfBook(db: Tx, today: LocalDate, timeZone: string): Promise<number[]> {
  const first = await db.cylinderEntry.findFirst({ orderBy: { at: 'asc' }, select: { at: true } });
  const now = Number(today.slice(0, 4));
  const from = first ? Math.min(now, Number(todayIn(timeZone, first.at.getTime()).slice(0, 4))) : now;
  return Array.from({ length: now - from + 1 }, (_, i) => now - i);
}
