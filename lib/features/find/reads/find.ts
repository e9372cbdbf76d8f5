import 'server-only';
import { searchWords } from '../../../core/wording/search-words';
import { FULL_KITCHEN_NAME } from '../../../database/kitchen-name';
import { matching } from '../../../database/search';
import { Prisma, type Tx } from '../../../database/client';

export type Hit = { href: string; kind: 'customer' | 'kitchen' | 'unit'; name: string; about: string };

/** Enough of what fits to put the best first without ordering all of it. */
const LOOKED_AT = 400;

// Written as in the indexes, or these are not used.
const CUSTOMER = Prisma.sql`find_text(c.name, c."contactName", c.email, c.phone, find_signs(c.phone))`;
const KITCHEN = Prisma.sql`find_text(k.name, k.address, k."contactName", k."contactEmail", k."contactPhone", find_signs(k."contactPhone"))`;
const UNIT = Prisma.sql`find_text(u.name, u.tag, u.make, u.model, u.serial, find_signs(u.serial), find_signs(u.tag))`;

const all = (text: Prisma.Sql, terms: readonly string[]) =>
  Prisma.join(
    terms.map((w) => Prisma.sql`${text} LIKE ${matching(w)}`),
    ' AND ',
  );

type Row = { id: string; name: string; about: string; first: boolean };

/**
 * Customers, kitchens and units on file by pieces of what stands on them: name, street, contact, phone, e-mail, tag, make,
 * model, serial. A name or tag that begins so comes first.
 */
export async function findRecords(db: Tx, typed: string, limit = 7): Promise<Hit[]> {
  const terms = searchWords(typed);
  if (terms.length === 0) return [];
  // A label is read out with or without its hyphen.
  const signs = terms.join('').replaceAll(/[^a-z0-9]/g, '');
  const begins = `${terms.join(' ').replace(/[\\%_]/g, (c) => `\\${c}`)}%`;
  const [customers, kitchens, units] = await Promise.all([
    db.$queryRaw<Row[]>`
      SELECT c.id, c.name, concat_ws(', ', nullif(c."contactName", ''), nullif(c.phone, '')) AS about, find_text(c.name) LIKE ${begins} AS first
      FROM "Customer" c WHERE c."archivedAt" IS NULL AND ${all(CUSTOMER, terms)} ORDER BY first DESC, c.name LIMIT ${limit}`,
    db.$queryRaw<Row[]>`
      WITH k AS (SELECT * FROM "Kitchen" k WHERE k."archivedAt" IS NULL AND ${all(KITCHEN, terms)} LIMIT ${LOOKED_AT})
      SELECT k.id, k.name, concat_ws(', ', c.name, nullif(k.address, ''), nullif(k."contactPhone", '')) AS about, find_text(k.name) LIKE ${begins} AS first
      FROM k JOIN "Customer" c ON c.id = k."customerId" ORDER BY first DESC, k.name LIMIT ${limit}`,
    db.$queryRaw<Row[]>`
      WITH u AS (SELECT * FROM "Unit" u WHERE u."archivedAt" IS NULL AND ${all(UNIT, terms)} LIMIT ${LOOKED_AT})
      SELECT u.id, u.name, concat_ws(', ', u.tag, nullif(u.serial, ''), ${FULL_KITCHEN_NAME}) AS about,
        (find_signs(u.tag) LIKE ${`${signs}%`} OR find_text(u.name) LIKE ${begins}) AS first
      FROM u JOIN "Kitchen" k ON k.id = u."kitchenId" JOIN "Customer" c ON c.id = k."customerId"
      ORDER BY find_signs(u.tag) = ${signs} DESC, first DESC, u.name, k.name LIMIT ${limit}`,
  ]);
  const hits = (kind: Hit['kind'], rows: Row[]): Hit[] =>
    rows.map((r) => ({ href: `/${kind}s/${r.id}`, kind, name: r.name, about: r.about }));
  return [...hits('kitchen', kitchens), ...hits('unit', units), ...hits('customer', customers)];
}
