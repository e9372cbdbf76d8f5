import sharp from 'sharp';
import { query } from '../../scripts/support/databases.mjs';
import type { Told } from './writer';

/** What was acknowledged is on file once and whole; what was sent without an answer once or not at all. */
export async function judgeKills(url: string, told: Told): Promise<{ lost: number; doubled: number; problems: string[] }> {
  const problems: string[] = [];
  const rows = (await query(
    url,
    `SELECT e.id, (SELECT count(*)::int FROM "PartUsed" p WHERE p.what = 'Piece ' || e.id) AS made FROM "Entry" e`,
  )) as { id: string; made: number }[];
  const made = new Map(rows.map((r) => [r.id, r.made]));
  const lost = [...told.entries].filter((id) => !made.get(id));
  const doubled = rows.filter((r) => r.made > 1 || !told.sent.has(r.id)).map((r) => r.id);
  const strays = (await query(
    url,
    `SELECT count(*)::int AS n FROM "PartUsed" p WHERE NOT EXISTS (SELECT 1 FROM "Entry" e WHERE 'Piece ' || e.id = p.what)`,
  )) as { n: number }[];
  if (strays[0]?.n) problems.push(`${strays[0].n} rows of no entry`);
  const files = (await query(url, `SELECT s.sha256, k.bytes FROM "StoredFile" s JOIN "KeptPicture" k ON k.hash = s.content`)) as {
    sha256: string;
    bytes: Buffer;
  }[];
  const whole = new Set<string>();
  for (const { sha256, bytes } of files)
    if (
      (await sharp(bytes)
        .stats()
        .catch(() => null)) !== null
    )
      whole.add(sha256);
  const gone = [...told.pictures].filter((sha) => !whole.has(sha));
  for (const id of [...lost, ...gone].slice(0, 20)) problems.push(`${id} was acknowledged and is not on file`);
  for (const id of doubled.slice(0, 20)) problems.push(`${id} is on file more than once, or was never sent`);
  return { lost: lost.length + gone.length, doubled: doubled.length + (strays[0]?.n ?? 0), problems };
}
