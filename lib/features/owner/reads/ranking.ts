import 'server-only';
import { TAKES_VISITS } from '../../people/reads/visiting';
import type { FoulingFilter } from '../../../core/owner/fouling-filter';
import { places, type Believed } from '../../../core/owner/ties';
import { Prisma, type Tx } from '../../../database/client';
import { TELLS } from './standings';

export type Ranked = Believed & { id: string; name: string; kitchen: string; customer: string; kind: string | null; placement: string | null; units: number; evidence: number }; // prettier-ignore
export type RankedPlace = Ranked & { best: number; worst: number };

function narrowed({ customer, kind, place, who, days }: FoulingFilter): Prisma.Sql {
  const parts: Prisma.Sql[] = [];
  if (customer) parts.push(Prisma.sql`k."customerId" = ${customer}::uuid`);
  if (kind) parts.push(Prisma.sql`u.kind = ${kind}::"UnitKind"`);
  if (place) parts.push(Prisma.sql`u.placement = ${place}::"Placement"`);
  if (who || days)
    parts.push(Prisma.sql`EXISTS (SELECT 1 FROM "Finding" x WHERE x."unitId" = u.id AND x.aspect = 'coil' AND x.grade IS NOT NULL AND x."supersededAt" IS NULL
      ${who ? Prisma.sql`AND x."byUserId" = ${who}::uuid` : Prisma.empty}
      ${days ? Prisma.sql`AND x.at >= ${days.from}::date::timestamp AT TIME ZONE k."timeZone" AND x.at < ${days.to}::date::timestamp AT TIME ZONE k."timeZone"` : Prisma.empty})`);
  return parts.length ? Prisma.sql`AND ${Prisma.join(parts, ' AND ')}` : Prisma.empty;
}

/** What is ranked, one row each: coils that somebody looked at and that air cools, or the kitchens of such. */
function ranked(filter: FoulingFilter): Prisma.Sql {
  if (filter.by === 'kitchen' && Object.values(filter).filter((said) => said !== undefined).length === 1)
    return Prisma.sql`SELECT k.id, f.rate, f.sd, f.units, f.evidence FROM "KitchenFouling" f JOIN "Kitchen" k ON k.id = f."kitchenId" AND k."archivedAt" IS NULL WHERE f.units > 0`;
  const coils = Prisma.sql`
    FROM "UnitFouling" f JOIN "Unit" u ON u.id = f."unitId" AND u."archivedAt" IS NULL
      JOIN "Kitchen" k ON k.id = u."kitchenId" AND k."archivedAt" IS NULL
    WHERE ${TELLS} ${narrowed(filter)}`;
  return filter.by === 'unit'
    ? Prisma.sql`SELECT u.id, f."ratePerDay" AS rate, f."rateSdPerDay" AS sd, 1 AS units, f."evidenceCount" AS evidence ${coils}`
    : Prisma.sql`SELECT k.id, avg(f."ratePerDay") AS rate, sqrt(sum(f."rateSdPerDay" ^ 2)) / count(*) AS sd, count(*)::int AS units, sum(f."evidenceCount")::int AS evidence ${coils} GROUP BY k.id`;
}

const NAMED = {
  unit: Prisma.sql`JOIN "Unit" u ON u.id = r.id JOIN "Kitchen" k ON k.id = u."kitchenId"`,
  kitchen: Prisma.sql`JOIN "Kitchen" k ON k.id = r.id LEFT JOIN "Unit" u ON false`,
};

/** Coils or kitchens by how fast they foul, each with the places between which it cannot be told apart. */
export async function foulingRanking(
  db: Tx,
  filter: FoulingFilter,
  page: { take: number; skip: number },
): Promise<{ rows: RankedPlace[]; total: number }> {
  const [rows, [all]] = await Promise.all([
    db.$queryRaw<Ranked[]>(Prisma.sql`
    WITH r AS (${ranked(filter)} ORDER BY rate DESC, id LIMIT ${page.take} OFFSET ${page.skip})
    SELECT r.id::text, r.rate, r.sd, r.units, r.evidence, coalesce(u.name, k.name) AS name, k.name AS kitchen, c.name AS customer, u.kind::text AS kind, u.placement::text AS placement
    FROM r ${NAMED[filter.by]} JOIN "Customer" c ON c.id = k."customerId" ORDER BY r.rate DESC, r.id`),
    // As JSON: read several times faster than an array of the database, and to the last digit too.
    db.$queryRaw<{ rates: number[] | null; sds: number[] | null }[]>(
      Prisma.sql`WITH r AS (${ranked(filter)}) SELECT json_agg(rate) AS rates, json_agg(sd) AS sds FROM r`,
    ),
  ]);
  const believed = (all?.rates ?? []).map((rate, i) => ({ rate, sd: all?.sds?.[i] ?? 0 }));
  const at = places(rows, believed);
  return { rows: rows.map((r, i) => ({ ...r, ...(at[i] ?? { best: 1, worst: believed.length }) })), total: believed.length };
}

/** Whom and what the ranking can be narrowed to. */
export async function rankingChoices(db: Tx) {
  const customers = await db.customer.findMany({
    where: { archivedAt: null },
    orderBy: { name: 'asc' },
    take: 500,
    select: { id: true, name: true },
  });
  const people = await db.user.findMany({ where: TAKES_VISITS, orderBy: { name: 'asc' }, select: { id: true, name: true } });
  return { customers, people };
}
