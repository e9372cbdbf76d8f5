import 'server-only';
import type { UnitKind } from '../../../core/equipment/build';
import { Prisma, type Tx } from '../../../database/client';
import { matching } from '../../../database/search';

export type CustomerLine = {
  id: string;
  name: string;
  archived: boolean;
  kitchens: number;
  units: number;
  overdue: number;
  address: string;
};
export type Place = { name: string; id: string };

/**
 * Customers by name with their kitchens, units and tasks past due, a page at a time. `q` finds pieces of the names of
 * customers, kitchens and units.
 */
export async function listCustomers(
  db: Tx,
  o: { q?: string; archived?: boolean; after?: Place; limit: number; now: Date },
): Promise<CustomerLine[]> {
  const found = o.q
    ? Prisma.sql`AND (c.name ILIKE ${matching(o.q)}
        OR c.id IN (SELECT "customerId" FROM "Kitchen" WHERE name ILIKE ${matching(o.q)})
        OR c.id IN (SELECT k."customerId" FROM "Unit" u JOIN "Kitchen" k ON k.id = u."kitchenId" WHERE u.name ILIKE ${matching(o.q)} OR u.tag = upper(${o.q})))`
    : Prisma.empty;
  const after = o.after ? Prisma.sql`AND (lower(c.name), c.id) > (lower(${o.after.name}), ${o.after.id}::uuid)` : Prisma.empty;
  return db.$queryRaw<CustomerLine[]>`
    WITH page AS (
      SELECT c.id, c.name, c."archivedAt" FROM "Customer" c
      WHERE (c."archivedAt" IS NOT NULL) = ${o.archived ?? false} ${found} ${after}
      ORDER BY lower(c.name), c.id LIMIT ${o.limit}
    )
    SELECT p.id, p.name, p."archivedAt" IS NOT NULL AS archived,
      (SELECT count(*)::int FROM "Kitchen" k WHERE k."customerId" = p.id AND (p."archivedAt" IS NOT NULL OR k."archivedAt" IS NULL)) AS kitchens,
      (SELECT count(*)::int FROM "Unit" u JOIN "Kitchen" k ON k.id = u."kitchenId" WHERE k."customerId" = p.id AND (p."archivedAt" IS NOT NULL OR u."archivedAt" IS NULL)) AS units,
      (SELECT count(*)::int FROM "Task" t JOIN "Kitchen" k ON k.id = t."kitchenId" WHERE k."customerId" = p.id AND k."archivedAt" IS NULL AND t.active
        AND t."dueOn" < (${o.now}::timestamptz AT TIME ZONE k."timeZone")::date) AS overdue,
      coalesce((SELECT min(k.address) FROM "Kitchen" k WHERE k."customerId" = p.id AND k."archivedAt" IS NULL), '') AS address
    FROM page p ORDER BY lower(p.name), p.id`;
}

/** One customer with its kitchens and what each holds, or null. */
export async function customerPage(db: Tx, id: string) {
  const customer = await db.customer.findUnique({
    where: { id },
    include: {
      kitchens: {
        orderBy: [{ archivedAt: { sort: 'asc', nulls: 'first' } }, { name: 'asc' }],
        include: { _count: { select: { units: { where: { archivedAt: null } } } } },
      },
    },
  });
  if (!customer) return null;
  const ids = customer.kitchens.map((k) => k.id);
  const due = await db.task.groupBy({ by: ['kitchenId'], where: { kitchenId: { in: ids }, active: true }, _min: { dueOn: true } });
  const soonest = new Map(due.map((d) => [d.kitchenId, d._min.dueOn]));
  return {
    ...customer,
    kitchens: customer.kitchens.map(({ _count, ...k }) => ({ ...k, units: _count.units, soonest: soonest.get(k.id) ?? null })),
  };
}
export const customerToEdit = (db: Tx, id: string) => db.customer.findUnique({ where: { id } });

/** How much is on file, for a list's head. */
export async function fleetCounts(db: Tx) {
  const [customers, kitchens, units] = await Promise.all([
    db.customer.count({ where: { archivedAt: null } }),
    db.kitchen.count({ where: { archivedAt: null } }),
    db.unit.count({ where: { archivedAt: null } }),
  ]);
  return { customers, kitchens, units };
}

/** Kitchens and units whose name or tag holds the text, the likeliest first. */
export async function findPlaces(db: Tx, q: string, limit = 12) {
  const like = matching(q);
  const [kitchens, units] = await Promise.all([
    db.$queryRaw<{ id: string; name: string; customer: string; address: string }[]>`
      SELECT k.id, k.name, c.name AS customer, k.address FROM "Kitchen" k JOIN "Customer" c ON c.id = k."customerId"
      WHERE k."archivedAt" IS NULL AND (k.name ILIKE ${like} OR k.address ILIKE ${like})
      ORDER BY similarity(k.name, ${q}) DESC, k.name LIMIT ${limit}`,
    db.$queryRaw<{ id: string; name: string; tag: string; kind: UnitKind; kitchen: string; customer: string }[]>`
      SELECT u.id, u.name, u.tag, u.kind::text, k.name AS kitchen, c.name AS customer
      FROM "Unit" u JOIN "Kitchen" k ON k.id = u."kitchenId" JOIN "Customer" c ON c.id = k."customerId"
      WHERE u."archivedAt" IS NULL AND (u.name ILIKE ${like} OR u.tag = upper(${q.trim()}))
      ORDER BY u.tag = upper(${q.trim()}) DESC, similarity(u.name, ${q}) DESC, u.name LIMIT ${limit}`,
  ]);
  return { kitchens, units };
}
