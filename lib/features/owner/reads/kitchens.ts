import 'server-only';
import { priced } from '../../shop/reads/energy-price';
import { shopSettings } from '../../shop/reads/settings';
import { extraEnergyToday, monthlyLoss, timesPrice } from '../../../core/evidence';
import { groupBy } from '../../../core/numerics/group-by';
import type { Figure } from '../../../core/condenser';
import { Prisma, type Tx } from '../../../database/client';
import { standings, type LeftOut, type StandingUnit } from './standings';

export type FoulingKitchen = LeftOut & {
  id: string;
  name: string;
  customer: string;
  /** Units that the rates and sums count. */
  units: number;
  /** Looks, readings and cleanings that the rates rest on. */
  evidence: number;
  /** Mean loss of ln K per day and its standard deviation, null where none is known. */
  rate: number | null;
  sd: number | null;
  /** Share of conductance that its coils lose in 30 days. */
  monthly: Figure | null;
  energy: Figure | null;
  money: Figure | null;
  overdue: number;
  fastest: Pick<StandingUnit, 'id' | 'name' | 'placement'> | null;
};

type Row = LeftOut & {
  id: string;
  name: string;
  customer: string;
  price: number | null;
  units: number;
  evidence: number;
  rate: number | null;
  sd: number | null;
  overdue: number;
};

/** Kitchens by how fast their coils foul, fastest first, one page of them. Kitchens without any evidence come last. */
export async function foulingKitchens(db: Tx, now: Date, page: { take: number; skip: number }): Promise<FoulingKitchen[]> {
  const rows = await db.$queryRaw<Row[]>(Prisma.sql`

    SELECT k.id, k.name, c.name AS customer, coalesce(k."energyPricePerKwh", (SELECT s."energyPricePerKwh" FROM "ShopSettings" s WHERE s.id = 1)) AS price, coalesce(r.units, 0) AS units, coalesce(r.evidence, 0) AS evidence, r.rate, r.sd,
      coalesce(r.unseen, 0) AS unseen, coalesce(r.water, 0) AS water,
      (SELECT count(*)::int FROM "Task" t WHERE t."kitchenId" = k.id AND t.active AND t."dueOn" < (${now}::timestamptz AT TIME ZONE k."timeZone")::date) AS overdue
    FROM "Kitchen" k JOIN "Customer" c ON c.id = k."customerId" LEFT JOIN "KitchenFouling" r ON r."kitchenId" = k.id
    WHERE k."archivedAt" IS NULL
    ORDER BY (coalesce(r.evidence, 0) > 0) DESC, r.rate DESC NULLS LAST, k.name, k.id
    LIMIT ${page.take} OFFSET ${page.skip}`);
  const units = groupBy(
    await standings(
      db,
      rows.map((r) => r.id),
      now,
    ),
    (u) => u.kitchenId,
  );
  return rows.map(({ price, ...r }) => {
    const own = units.get(r.id) ?? [];
    const energy = extraEnergyToday(own);
    return { ...r, monthly: monthlyLoss(own), energy, money: timesPrice(energy, price), fastest: own[0] ?? null };
  });
}

/** A kitchen with its units as the owner looks into it, or null. */
export async function foulingKitchen(db: Tx, id: string, now: Date) {
  const kitchen = await db.kitchen.findUnique({ where: { id }, include: { customer: { select: { name: true } } } });
  if (!kitchen) return null;
  const units = await standings(db, [id], now);
  const left = await db.kitchenFouling.findUnique({ where: { kitchenId: id }, select: { unseen: true, water: true } });
  return { kitchen: priced(kitchen, await shopSettings(db)), units, left: left ?? { unseen: 0, water: 0 } };
}
