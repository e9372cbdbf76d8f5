import 'server-only';
import { Readable } from 'node:stream';
import { configure, ZipWriter } from '@zip.js/zip.js';
import { csvColumn, describe, describedAsText, jsonColumn, LEFT_OUT_MODELS, PICTURES, whyLeftOut } from '../../../core/archive';
import type { Pictures } from '../../../database/pictures/picture-store.mjs';
import { withSnapshot, type Snapshot, type TableOnFile } from '../../../database/snapshot';

configure({ useWebWorkers: false });

/** Of which form the archive is; one that reads it refuses a newer one. */
const FORMAT = 1;
const PICTURES_AT_ONCE = 4;

export type ArchiveProgress = { rows: number; doneRows: number };
type Options = { now: Date; schema: string; pictures: Pictures; onProgress: (progress: ArchiveProgress) => void };
type Writing = { pictures: Pictures; done: (n: number) => void; lastModDate: Date };

const quoted = (name: string) => `"${name.replaceAll('"', '""')}"`;
// By the bytes of the key, so that the order does not hang on the server's language.
const ordered = (t: TableOnFile) =>
  t.key.map((k) => (t.columns.find((c) => c.name === k)?.type === 'text' ? `${quoted(k)} COLLATE "C"` : quoted(k))).join(', ');

/** Pictures that lie outside of the database stand in the archive as if they lay in it: as rows whose bytes are fetched. */
const OUTSIDE = `SELECT DISTINCT s."content", ''::bytea FROM public."StoredFile" s WHERE NOT EXISTS (SELECT FROM public."KeptPicture" k WHERE k."hash" = s."content")`;
const rowsOf = ({ name }: TableOnFile) =>
  name === 'KeptPicture' ? `(SELECT "hash", "bytes" FROM public."KeptPicture" UNION ALL ${OUTSIDE}) k` : `public.${quoted(name)}`;
const from = (t: TableOnFile) => `FROM ${rowsOf(t)} ORDER BY ${ordered(t)}`;
const listed = (t: TableOnFile, column: typeof jsonColumn) => t.columns.flatMap((c) => column(t.name, c) ?? []).join(', ');

/** Tables whose rows go in, and the columns of them whose bytes are files. */
const plan = (tables: TableOnFile[]) =>
  tables
    .filter((t) => !(t.name in LEFT_OUT_MODELS))
    .map((t) => ({
      ...t,
      pictures: t.columns.flatMap((c) => (PICTURES[`${t.name}.${c.name}`] && whyLeftOut(t.name, c.name) === null ? [c.name] : [])),
    }));
type Planned = ReturnType<typeof plan>[number];

const countSql = (t: Planned) =>
  `SELECT '${t.name}' AS name, count(*)::int AS rows, (${t.pictures.map((c) => `count(${quoted(c)})`).join(' + ') || '0'})::int AS pictures FROM ${rowsOf(t)}`;

async function* counting(source: Readable, row: (n: number) => void): AsyncGenerator<Uint8Array> {
  for await (const chunk of source as AsyncIterable<Buffer>) {
    let lines = 0;
    for (let i = chunk.indexOf(10); i >= 0; i = chunk.indexOf(10, i + 1)) lines++;
    row(lines);
    yield chunk;
  }
}
const stream = (chunks: AsyncIterable<Uint8Array>) => Readable.toWeb(Readable.from(chunks)) as ReadableStream<Uint8Array>;

async function head(snapshot: Snapshot, tables: Planned[], now: Date) {
  const counts = await snapshot.rows<{ name: string; rows: number; pictures: number }>(tables.map(countSql).join(' UNION ALL '));
  const migrations = await snapshot.rows<{ name: string; checksum: string }>(
    'SELECT migration_name AS name, checksum FROM _prisma_migrations WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL ORDER BY migration_name',
  );
  const counters = await snapshot.rows<{ name: string; last: string }>(
    `SELECT sequencename::text AS name, last_value::text AS last FROM pg_sequences WHERE schemaname = 'public' AND last_value IS NOT NULL ORDER BY 1`,
  );
  const of = new Map(counts.map((c) => [c.name, c]));
  return {
    format: FORMAT,
    madeAt: now.toISOString(),
    migrations,
    counters,
    tables: tables.map((t) => ({
      name: t.name,
      rows: of.get(t.name)?.rows ?? 0,
      pictures: of.get(t.name)?.pictures ?? 0,
      columns: t.columns.filter((c) => whyLeftOut(t.name, c.name) === null).map((c) => c.name),
      files: t.pictures,
      leftOut: t.columns.filter((c) => whyLeftOut(t.name, c.name) !== null).map((c) => c.name),
    })),
  };
}

async function writePictures(zip: ZipWriter<unknown>, snapshot: Snapshot, t: Planned, { pictures, done, lastModDate }: Writing) {
  for (const column of t.pictures) {
    const path = PICTURES[`${t.name}.${column}`] ?? '';
    const hash = t.name === 'KeptPicture' ? '"hash"' : 'NULL';
    const sql = `SELECT ${path} AS path, ${hash} AS hash, ${quoted(column)} AS bytes FROM ${rowsOf(t)} WHERE ${quoted(column)} IS NOT NULL ORDER BY ${ordered(t)}`;
    for await (const some of snapshot.each<{ path: string; hash: string | null; bytes: Buffer }>(sql, PICTURES_AT_ONCE))
      for (const { path: name, hash: outside, bytes } of some) {
        const whole = outside !== null && bytes.length === 0 ? await pictures.get(outside) : bytes;
        if (!whole) throw new Error(`The picture ${outside} is in no store.`);
        // Pictures are packed already.
        await zip.add(name, stream(Readable.from([whole])), { level: 0, lastModDate });
        done(1);
      }
  }
}

/**
 * Everything on file as of one moment, as one zip: tables as CSV and JSON, pictures, and what each column means.
 * What it needs of memory does not grow with the shop: rows come as the database sends them, pictures a few at a time.
 * @param url of the database @param into takes the bytes as they come, and may make it wait
 * @returns rows and pictures in it
 */
export function writeArchive(
  url: string,
  into: WritableStream<Uint8Array>,
  { now, schema, pictures, onProgress }: Options,
): Promise<ArchiveProgress> {
  return withSnapshot(url, async (snapshot) => {
    const all = await snapshot.tables();
    const tables = plan(all);
    const manifest = await head(snapshot, tables, now);
    const progress = { rows: manifest.tables.reduce((n, t) => n + t.rows + t.pictures, 0), doneRows: 0 };
    const done = (n: number) => {
      progress.doneRows += n;
      onProgress({ ...progress });
    };
    const lastModDate = now;
    const zip = new ZipWriter(into, { bufferedWrite: false, keepOrder: true });
    const text = (name: string, content: string) => zip.add(name, stream(Readable.from([Buffer.from(content)])), { lastModDate });
    const [shop] = await snapshot.rows<{ name: string }>('SELECT name FROM public."ShopSettings" WHERE id = 1');
    const described = describe(schema, all, await snapshot.enums());
    await text('manifest.json', `${JSON.stringify(manifest, null, 2)}\n`);
    await text('README.md', describedAsText(described, shop?.name ?? 'the shop', now.toISOString()));
    await text('schema.json', `${JSON.stringify(described, null, 2)}\n`);
    for (const t of tables) {
      const rows = snapshot.copy(`SELECT row_to_json(r) FROM (SELECT ${listed(t, jsonColumn)} ${from(t)}) r`, 'json');
      await zip.add(`json/${t.name}.jsonl`, stream(counting(rows, done)), { lastModDate });
      await zip.add(`csv/${t.name}.csv`, stream(snapshot.copy(`SELECT ${listed(t, csvColumn)} ${from(t)}`, 'csv')), { lastModDate });
    }
    for (const t of tables) await writePictures(zip, snapshot, t, { pictures, done, lastModDate });
    await zip.close();
    return progress;
  });
}
