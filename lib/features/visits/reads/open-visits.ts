import 'server-only';
import { instantOf, type LocalDate } from '../../../core/calendar';
import { Prisma, type Tx } from '../../../database/client';

type Row = {
  id: string;
  startsAt: Date;
  started: boolean;
  technician: string;
  kitchen: string;
  customer: string;
  timeZone: string;
  total: bigint;
};

/**
 * Visits `v` still booked or started, the first `limit` by their end, and how many there are. Their states are written out: asked as
 * arguments, the database cannot know that they are few, and goes through all visits there ever were.
 */
async function openVisits(db: Tx, where: Prisma.Sql, limit: number) {
  const rows = await db.$queryRaw<Row[]>`
    SELECT v.id, v."startsAt", v.status = 'started' AS started, p.name AS technician, k.name AS kitchen, c.name AS customer, k."timeZone",
      count(*) OVER () AS total
    FROM "Visit" v JOIN "User" p ON p.id = v."technicianId" JOIN "Kitchen" k ON k.id = v."kitchenId" JOIN "Customer" c ON c.id = k."customerId"
    WHERE v.status IN ('booked', 'started') AND ${where}
    ORDER BY v."endsAt", v.id LIMIT ${limit}`;
  return { visits: rows.map(({ total: _, ...v }) => ({ ...v, startsAt: v.startsAt.getTime() })), total: Number(rows[0]?.total ?? 0) };
}
export type OpenVisits = Awaited<ReturnType<typeof openVisits>>;

/** Visits whose time is over and that nobody closed: their tasks stand on no other list. */
export const pastNotClosed = (db: Tx, now: Date, limit: number) => openVisits(db, Prisma.sql`v."endsAt" <= ${now}`, limit);

type Whose = { technicianId: string } | { kitchenId: string };

/** Open visits of a technician or a kitchen that begin in `[from, until)`, days of `timeZone`. */
export const openVisitsOn = (db: Tx, whose: Whose, from: LocalDate, until: LocalDate, timeZone: string, limit = 20) =>
  openVisits(
    db,
    Prisma.sql`${'kitchenId' in whose ? Prisma.sql`v."kitchenId" = ${whose.kitchenId}::uuid` : Prisma.sql`v."technicianId" = ${whose.technicianId}::uuid`}
      AND v."startsAt" >= ${new Date(instantOf(from, '00:00', timeZone))} AND v."startsAt" < ${new Date(instantOf(until, '00:00', timeZone))}`,
    limit,
  );
