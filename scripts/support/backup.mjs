import { to as copyTo, from as copyFrom } from 'pg-copy-streams';
import { once } from 'node:events';
import { readArchive, writeArchive } from './archive.mjs';
import { connected } from './connected.mjs';
import { create, databaseName, drop, exists, rename, withDatabase } from './databases.mjs';
import { migrate } from './migrations.mjs';
import { Plain } from './say.mjs';

const FORMAT = 1;
const CHUNK = 256 * 1024;
const quoted = (name) => `"${name.replaceAll('"', '""')}"`;

/** Tables of the shop with their columns, each after those it points to. An unlogged one holds what is made again. */
async function tables(client) {
  const { rows: columns } = await client.query(`
    SELECT c.relname AS table, array_agg(a.attname::text ORDER BY a.attnum) AS columns
    FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = ''
    WHERE c.relnamespace = 'public'::regnamespace AND c.relkind = 'r' AND c.relpersistence <> 'u' AND c.relname <> '_prisma_migrations'
    GROUP BY c.relname ORDER BY c.relname`);
  const { rows: keys } = await client.query(`
    SELECT conrelid::regclass::text AS child, confrelid::regclass::text AS parent FROM pg_constraint
    WHERE contype = 'f' AND connamespace = 'public'::regnamespace AND conrelid <> confrelid`);
  const parents = new Map(columns.map((t) => [t.table, new Set()]));
  const bare = (name) => name.replace(/^"|"$/g, '');
  for (const { child, parent } of keys) parents.get(bare(child))?.add(bare(parent));
  const ordered = [];
  const left = new Map(columns.map((t) => [t.table, t.columns]));
  while (left.size > 0) {
    const ready = [...left.keys()].filter((t) => [...parents.get(t)].every((p) => !left.has(p)));
    if (ready.length === 0) throw new Error(`These tables point at each other in a ring: ${[...left.keys()].join(', ')}`);
    for (const table of ready) {
      ordered.push({ table, columns: left.get(table) });
      left.delete(table);
    }
  }
  return ordered;
}

const columnList = ({ table, columns }) => `public.${quoted(table)} (${columns.map(quoted).join(', ')})`;

/** Tablets keep a picture until a backup from after it exists. A layout from before that is left alone. */
export function tellBackedUp(url, at) {
  return connected(url, async (client) => {
    const { rowCount } = await client.query(
      `SELECT 1 FROM information_schema.columns WHERE table_schema = 'public' AND table_name = 'ShopSettings' AND column_name = 'backedUpAt'`,
    );
    if (rowCount) await client.query('UPDATE "ShopSettings" SET "backedUpAt" = $1', [at]);
  });
}

/** Pictures that lie outside of the database, by the snapshot's own rows. A layout from before that has none. */
async function outside(client, all) {
  if (!all.some((t) => t.table === 'KeptPicture')) return [];
  const { rows } = await client.query(
    'SELECT DISTINCT content FROM "StoredFile" s WHERE NOT EXISTS (SELECT FROM "KeptPicture" k WHERE k.hash = s.content) ORDER BY content',
  );
  return rows.map((r) => r.content);
}

/** They go in as rows of the database: a backup is whole by itself, whatever becomes of the store. */
async function writeOutside(frame, hashes, pictures) {
  for (const hash of hashes) {
    const bytes = await pictures.get(hash);
    if (!bytes) throw new Plain(`The picture ${hash} is in no store that is configured (RIMEBOOK_PICTURES). Nothing was backed up.`);
    await frame('d', Buffer.from(`${hash}\t\\\\x${Buffer.from(bytes).toString('hex')}\n`));
  }
}

/**
 * Everything a shop has on file, data and pictures, as of one moment, while it goes on working.
 * @param {string} url @param {string} file
 * @param {{ secret?: string, pictures?: import('../../lib/database/pictures/picture-store.mjs').Pictures }} [options] `secret`
 * encrypts it; without `pictures` those outside of the database stay where they are
 * @returns {Promise<Record<string, number>>} rows by table
 */
export async function backUp(url, file, { secret, pictures } = {}) {
  return connected(url, async (client) => {
    // One snapshot for all tables: what is written meanwhile is in none of them.
    await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY');
    const { rows: migrations } = await client.query(
      'SELECT migration_name AS name, checksum FROM _prisma_migrations WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL ORDER BY migration_name',
    );
    const all = await tables(client);
    const { rows: sequences } = await client.query(
      `SELECT sequencename AS name, last_value::text AS last FROM pg_sequences WHERE schemaname = 'public' AND last_value IS NOT NULL`,
    );
    const elsewhere = pictures ? await outside(client, all) : [];
    const counts = {};
    await writeArchive(file, secret, async (frame) => {
      await frame('h', JSON.stringify({ format: FORMAT, at: new Date().toISOString(), migrations, tables: all, sequences }));
      for (const table of all) {
        await frame('t', table.table);
        const out = client.query(copyTo(`COPY ${columnList(table)} TO STDOUT`));
        let waiting = [];
        let size = 0;
        const flush = async () => {
          if (size > 0) await frame('d', Buffer.concat(waiting));
          waiting = [];
          size = 0;
        };
        for await (const chunk of out) {
          waiting.push(chunk);
          size += chunk.length;
          if (size >= CHUNK) await flush();
        }
        await flush();
        counts[table.table] = out.rowCount;
        if (table.table !== 'KeptPicture') continue;
        await writeOutside(frame, elsewhere, pictures);
        counts.KeptPicture += elsewhere.length;
      }
      await frame('e', JSON.stringify(counts));
    });
    await client.query('COMMIT');
    return counts;
  });
}

/** Fills a database that has the backup's own layout and nothing of a shop in it, whole or not at all. */
async function fill(url, frames, head) {
  return connected(url, async (client) => {
    await client.query('BEGIN');
    // The rules were kept when it was written; some look at what is not there yet, and some let nothing be changed.
    for (const { table } of head.tables) await client.query(`ALTER TABLE public.${quoted(table)} DISABLE TRIGGER USER`);
    await client.query(`TRUNCATE ${head.tables.map(({ table }) => `public.${quoted(table)}`).join(', ')} CASCADE`);
    const counts = {};
    let answer;
    let into;
    let name;
    const close = async () => {
      if (!into) return;
      into.end();
      await once(into, 'finish');
      counts[name] = into.rowCount;
      into = undefined;
    };
    const byTable = new Map(head.tables.map((t) => [t.table, t]));
    for await (const { kind, bytes } of frames) {
      if (kind === 'd') {
        if (!into.write(bytes)) await once(into, 'drain');
        continue;
      }
      await close();
      if (kind === 't') {
        name = bytes.toString();
        into = client.query(copyFrom(`COPY ${columnList(byTable.get(name))} FROM STDIN`));
      } else if (kind === 'e') answer = JSON.parse(bytes.toString());
    }
    if (!answer || head.tables.some(({ table }) => answer[table] !== counts[table]))
      throw new Plain('The backup does not hold all that it should. Nothing was restored.');
    for (const { name: sequence, last } of head.sequences)
      await client.query('SELECT setval($1::regclass, $2)', [`public.${quoted(sequence)}`, last]);
    for (const { table } of head.tables) await client.query(`ALTER TABLE public.${quoted(table)} ENABLE TRIGGER USER`);
    await client.query('COMMIT');
    return counts;
  });
}

/**
 * A shop from a backup, in a database that does not exist yet: laid out as it was, filled, then brought up to date.
 * It stands under another name until it is whole.
 * @param {string} file @param {string} url @param {{ secret?: string }} [options]
 * @returns {Promise<{ at: string, rows: Record<string, number>, migrated: string[] }>}
 * @throws {Plain} when there is such a database already, or the file is not whole
 */
export async function restore(file, url, { secret } = {}) {
  if (await exists(url))
    throw new Plain(`There is a database ${databaseName(url)} already. Restore into a new one, or take that one away first.`);
  const frames = readArchive(file, secret);
  const first = await frames.next();
  if (first.done || first.value.kind !== 'h') throw new Plain(`${file} is no backup of Rimebook.`);
  const head = JSON.parse(first.value.bytes.toString());
  if (head.format !== FORMAT) throw new Plain(`${file} was made by a newer Rimebook. Update first.`);
  const unfinished = withDatabase(url, `${databaseName(url)}_restoring`);
  await drop(unfinished);
  await create(unfinished);
  try {
    await migrate(unfinished, head.migrations);
    const rows = await fill(unfinished, frames, head);
    const migrated = await migrate(unfinished);
    await rename(unfinished, databaseName(url));
    return { at: head.at, rows, migrated };
  } catch (error) {
    await drop(unfinished).catch(() => {});
    throw error;
  }
}
