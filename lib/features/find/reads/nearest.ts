import 'server-only';
import { searchWords } from '../../../core/wording/search-words';
import { Prisma, type Tx } from '../../../database/client';

export type NearKitchen = { id: string; name: string; customer: string; address: string; phone: string };

/** Words that a caller says around a name; they find everything or nothing. */
const AROUND = new Set(['the', 'a', 'an', 'at', 'on', 'in', 'of', 'by', 'from', 'and', 'our', 'my', 'this', 'it', 'is', 'its', 'place', 'restaurant', 'kitchen', 'street', 'road', 'down', 'near', 'calling', 'here', 'over', 'one', 'with', 'for']); // prettier-ignore
/** Share of a word's three-letter pieces that a name must have in the mean (and one of them, in near_kitchens), and how far behind the best one may stay. Judgement. */
const LEAST = 0.45;
const BEHIND = 0.2;

/**
 * Kitchens whose names, streets or contacts come nearest to what was said, best first; none where nothing comes near. For a name
 * that was heard or spelt wrong, once nothing on file has its words.
 */
export async function nearestKitchens(db: Tx, said: string, limit = 5): Promise<NearKitchen[]> {
  const terms = searchWords(said).filter((w) => w.length > 2 && !AROUND.has(w) && /\p{L}/u.test(w));
  if (terms.length === 0) return [];
  const alike = Prisma.join(
    terms.map((w) => Prisma.sql`word_similarity(${w}, t.text)`),
    ' + ',
  );
  const rows = await db.$queryRaw<(NearKitchen & { score: number })[]>`
    SELECT t.id, t.name, t.customer, t.address, t.phone, ((${alike}) / ${terms.length}::float)::float AS score FROM (
      SELECT k.id, k.name, c.name AS customer, k.address, coalesce(nullif(k."contactPhone", ''), c.phone) AS phone,
        find_text(c.name, k.name, k.address, k."contactName", c."contactName") AS text
      FROM near_kitchens(${terms}::text[]) AS near(id) JOIN "Kitchen" k ON k.id = near.id JOIN "Customer" c ON c.id = k."customerId"
      WHERE k."archivedAt" IS NULL AND c."archivedAt" IS NULL OFFSET 0
    ) t ORDER BY score DESC, t.customer, t.name LIMIT ${limit}`;
  const best = rows[0]?.score ?? 0;
  return rows.filter((r) => r.score >= Math.max(LEAST, best - BEHIND)).map(({ score: _, ...kitchen }) => kitchen);
}
