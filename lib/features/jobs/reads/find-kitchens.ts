import 'server-only';
import { Prisma, type Tx } from '../../../database/client';
import { matching } from '../../../database/search';
import { nearestKitchens } from '../../find/reads/nearest';

export type FoundKitchen = { id: string; name: string; customer: string; address: string; phone: string; unit: string | null };

const MOST_WORDS = 6;
/** Fewer digits than this are a house number, not a telephone. */
const PHONE_DIGITS = 5;

/** Kitchens by anything a caller says: names of customer, kitchen, contact or unit, street, telephone, a unit's tag. Every word must be found. */
export async function findKitchens(db: Tx, said: string, limit = 12): Promise<FoundKitchen[]> {
  const terms = said.trim().split(/\s+/).filter(Boolean).slice(0, MOST_WORDS);
  if (terms.length === 0) return [];
  const digits = said.replace(/\D/g, '');
  const unit = (w: string) =>
    Prisma.sql`EXISTS (SELECT 1 FROM "Unit" u WHERE u."kitchenId" = k.id AND u."archivedAt" IS NULL AND (u.name ILIKE ${matching(w)} OR u.tag = upper(${w}) OR lower(u.serial) = lower(${w})))`;
  const every = Prisma.join(
    terms.map(
      (w) => Prisma.sql`(k.name ILIKE ${matching(w)} OR c.name ILIKE ${matching(w)} OR k.address ILIKE ${matching(w)}
      OR k."contactName" ILIKE ${matching(w)} OR c."contactName" ILIKE ${matching(w)} OR ${unit(w)})`,
    ),
    ' AND ',
  );
  const phone =
    digits.length >= PHONE_DIGITS && !/[a-z]/i.test(said)
      ? Prisma.sql`OR regexp_replace(k."contactPhone" || ' ' || c.phone, '\\D', '', 'g') LIKE ${`%${digits}%`}`
      : Prisma.empty;
  return db.$queryRaw<FoundKitchen[]>`
    SELECT k.id, k.name, c.name AS customer, k.address, coalesce(nullif(k."contactPhone", ''), c.phone) AS phone,
      (SELECT u.name || ', ' || u.tag FROM "Unit" u WHERE u."kitchenId" = k.id AND u."archivedAt" IS NULL
        AND (${Prisma.join(
          terms.map((w) => Prisma.sql`u.name ILIKE ${matching(w)} OR u.tag = upper(${w})`),
          ' OR ',
        )}) ORDER BY u.name LIMIT 1) AS unit
    FROM "Kitchen" k JOIN "Customer" c ON c.id = k."customerId"
    WHERE k."archivedAt" IS NULL AND c."archivedAt" IS NULL AND ((${every}) ${phone})
    ORDER BY similarity(c.name || ' ' || k.name, ${said}) DESC, c.name, k.name LIMIT ${limit}`;
}

/** Kitchens by what was said; the nearest to it where none has all of it. `only` is the one that it can be. */
export async function kitchensSaid(db: Tx, said: string) {
  const found = said ? await findKitchens(db, said) : [];
  const near = said && found.length === 0 ? await nearestKitchens(db, said) : [];
  return { found, near, only: found.length === 1 ? found[0]?.id : undefined };
}
