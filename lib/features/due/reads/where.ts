import 'server-only';
import { bucketDates, type Bucket, type BucketDates } from '../../../core/due/buckets';
import { Prisma, type Tx } from '../../../database/client';
import { matching } from '../../../database/search';

/** What the due list is narrowed by. `booked` shows also what stands on an open visit. */
export type DueFilter = { q?: string; area?: string; kindKey?: string; placement?: string; kitchenId?: string; booked?: boolean };

export type Zones = { zone: string; dates: BucketDates }[];

/** The time zones on file with their own today: a handful, asked once a page. */
export async function zonesOnFile(db: Tx, now: Date): Promise<Zones> {
  const rows = await db.$queryRaw<{ zone: string }[]>`SELECT DISTINCT "timeZone" AS zone FROM "Kitchen" WHERE "archivedAt" IS NULL`;
  return rows.map(({ zone }) => ({ zone, dates: bucketDates(zone, now.getTime()) }));
}

const BEGINNING = '0001-01-01';
export const rangeOf = (dates: BucketDates, bucket: Bucket) =>
  bucket === 'overdue' ? { from: BEGINNING, to: dates.overdue.to } : dates[bucket];

/** `z(zone, today, lo, hi)`: the bucket in each zone, with the widest range for the index to go by. */
export function bucketTable(zones: Zones, bucket: Bucket) {
  const ranges = zones.map((z) => ({ zone: z.zone, today: z.dates.today, ...rangeOf(z.dates, bucket) }));
  const table = Prisma.join(ranges.map((r) => Prisma.sql`(${r.zone}, ${r.today}::date, ${r.from}::date, ${r.to}::date)`));
  const least = ranges.reduce((a, r) => (r.from < a ? r.from : a), '9999-12-31');
  const most = ranges.reduce((a, r) => (r.to > a ? r.to : a), BEGINNING);
  return { table, least, most };
}

/** Conditions on a task `t` at a kitchen `k`. */
export function narrowed(f: DueFilter): Prisma.Sql {
  const parts: Prisma.Sql[] = [];
  if (f.kindKey) parts.push(Prisma.sql`t."kindKey" = ${f.kindKey}`);
  if (f.kitchenId) parts.push(Prisma.sql`t."kitchenId" = ${f.kitchenId}::uuid`);
  if (f.area) parts.push(Prisma.sql`k.address ILIKE ${matching(f.area)}`);
  if (f.placement) parts.push(Prisma.sql`t."unitId" IN (SELECT id FROM "Unit" WHERE placement::text = ${f.placement})`);
  if (f.q) {
    const like = matching(f.q);
    parts.push(Prisma.sql`(
      t."kitchenId" IN (SELECT id FROM "Kitchen" WHERE name ILIKE ${like})
      OR t."kitchenId" IN (SELECT k2.id FROM "Kitchen" k2 JOIN "Customer" c2 ON c2.id = k2."customerId" WHERE c2.name ILIKE ${like})
      OR t."unitId" IN (SELECT id FROM "Unit" WHERE name ILIKE ${like}))`);
  }
  if (!f.booked) parts.push(Prisma.sql`NOT EXISTS (SELECT 1 FROM "VisitTask" vt WHERE vt."taskId" = t.id AND vt.open)`);
  return parts.length ? Prisma.sql`AND ${Prisma.join(parts, ' AND ')}` : Prisma.empty;
}
