import 'server-only';
import { STORED_OWN_LIMITS } from '../../../database/stored/fouling';
import { approximateWeeks } from '../../../core/calendar';
import type { DueCoil } from '../../../core/evidence';
import { COIL_CLEANING } from '../../../core/tasks';
import { Prisma, type Tx } from '../../../database/client';
import { TELLS } from './standings';

type Row = Omit<DueCoil, 'lastsDays' | 'own'> & { rule: string; own: unknown };

/** A page is no place for more; the soonest count. */
const MOST = 3000;

/** Coils whose cleaning is overdue or due within some days, soonest first: only those that somebody looked at and that air cools. */
export async function dueCoils(db: Tx, now: Date, days: number): Promise<{ coils: DueCoil[]; unseen: number; more: boolean }> {
  const due = Prisma.sql`
    FROM "Task" t JOIN "Unit" u ON u.id = t."unitId" AND u."archivedAt" IS NULL JOIN "Kitchen" k ON k.id = u."kitchenId" AND k."archivedAt" IS NULL
    LEFT JOIN "UnitFouling" f ON f."unitId" = u.id
    CROSS JOIN LATERAL (SELECT (${now}::timestamptz AT TIME ZONE k."timeZone")::date AS day) today
    WHERE t.active AND t."kindKey" = ${COIL_CLEANING} AND t."dueOn" <= today.day + ${days}::int`;
  const rows = await db.$queryRaw<Row[]>(Prisma.sql`
    SELECT f."ratePerDay", f."rateSdPerDay", f."lnK", f."lnKSd", f.own, t.rule, greatest(0, today.day - f."asOf") AS days,
      greatest(0, t."dueOn" - today.day) AS "dueInDays",
      coalesce(k."energyPricePerKwh", (SELECT s."energyPricePerKwh" FROM "ShopSettings" s WHERE s.id = 1)) AS "pricePerKwh"
    ${due} AND ${TELLS} ORDER BY t."dueOn", u.id LIMIT ${MOST + 1}`);
  const [left] = await db.$queryRaw<{ n: number }[]>(Prisma.sql`SELECT count(*)::int AS n ${due} AND NOT ${TELLS}`);
  return {
    coils: rows.slice(0, MOST).map(({ rule, own, ...row }) => ({
      ...row,
      lastsDays: Math.max(7, Math.round(7 * approximateWeeks(rule))),
      own: STORED_OWN_LIMITS.readOrNull(own),
    })),
    unseen: left?.n ?? 0,
    more: rows.length > MOST,
  };
}
