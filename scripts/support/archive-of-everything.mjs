import { createHash, randomBytes, randomUUID } from 'node:crypto';
import { open } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { configure, Reader, ZipReader } from '@zip.js/zip.js';
import pg from 'pg';
import { from as copyFrom } from 'pg-copy-streams';
import { connected } from './connected.mjs';
import { create, databaseName, drop, exists, rename, withDatabase } from './databases.mjs';
import { migrate } from './migrations.mjs';
import { Plain } from './say.mjs';

configure({ useWebWorkers: false });
const FORMAT = 1;
// JSON has no such characters outside its own escapes: each line is a row as it is.
const JSON_LINES = `COPY incoming (line) FROM STDIN WITH (FORMAT csv, QUOTE e'\\x01', DELIMITER e'\\x02')`;
const quoted = (name) => `"${name.replaceAll('"', '""')}"`;

/** A file read where the zip asks for it, never whole. */
class FileOnDisk extends Reader {
  constructor(handle, size) {
    super();
    this.handle = handle;
    this.size = size;
  }
  async readUint8Array(index, length) {
    const bytes = new Uint8Array(length);
    const { bytesRead } = await this.handle.read(bytes, 0, length, index);
    return bytes.subarray(0, bytesRead);
  }
}

/** Whether a file is a zip. @param {string} file */
export async function isZip(file) {
  const handle = await open(file, 'r').catch(() => {
    throw new Plain(`There is no file ${file}.`);
  });
  try {
    const bytes = Buffer.alloc(4);
    await handle.read(bytes, 0, 4, 0);
    return bytes.equals(Buffer.from('PK\x03\x04'));
  } finally {
    await handle.close();
  }
}

async function textOf(entry) {
  const chunks = [];
  await entry.getData(new WritableStream({ write: (chunk) => void chunks.push(chunk) }));
  return Buffer.concat(chunks).toString();
}

/** An entry's bytes as they come out of the file. */
function flow(entry) {
  const { readable, writable } = new TransformStream();
  const done = entry.getData(writable);
  done.catch(() => {});
  return { stream: Readable.fromWeb(readable), done };
}

/** The rows of one table, put in by one statement so that rows of it may point at each other. */
async function fillTable(client, table, entry) {
  await client.query('TRUNCATE incoming');
  const { stream, done } = flow(entry);
  await pipeline(stream, client.query(copyFrom(JSON_LINES)));
  await done;
  const needed = await client.query(
    `SELECT attname::text AS name FROM pg_attribute WHERE attrelid = $1::regclass AND attnotnull AND NOT atthasdef AND attname = ANY($2::text[])`,
    [`public.${quoted(table.name)}`, table.leftOut],
  );
  const target = `public.${quoted(table.name)}`;
  const columns = [...table.columns, ...needed.rows.map((r) => r.name)];
  const values = [
    ...table.columns.map((c) =>
      table.files.includes(c) ? `(SELECT f.bytes FROM files f WHERE f.path = i.line::json ->> '${c}')` : `r.${quoted(c)}`,
    ),
    // What lets somebody in was left out: something that opens nothing stands in its place.
    ...needed.rows.map(() => `'left out ' || (i.line::json ->> 'id')`),
  ];
  // The bytes' own columns hold names of files here: they are taken out before the row is read.
  const plain = table.files.reduce((sql, c) => `(${sql} - '${c}')`, 'i.line::jsonb');
  const record =
    table.files.length > 0 ? `jsonb_populate_record(NULL::${target}, ${plain})` : `json_populate_record(NULL::${target}, i.line::json)`;
  const { rowCount } = await client.query(
    `INSERT INTO ${target} (${columns.map(quoted).join(', ')}) SELECT ${values.join(', ')} FROM incoming i CROSS JOIN LATERAL ${record} r ORDER BY i.n`,
  );
  if (rowCount !== table.rows) throw new Plain(`${table.name} should have ${table.rows} rows and has ${rowCount}. Nothing was taken in.`);
}

async function takePictures(client, entries) {
  for (const entry of entries) {
    const chunks = [];
    await entry.getData(new WritableStream({ write: (chunk) => void chunks.push(chunk) }), { checkSignature: true });
    await client.query('INSERT INTO files VALUES ($1, $2)', [entry.filename, Buffer.concat(chunks)]);
  }
}

/** Tables in an order in which each comes after those it points to. */
async function inOrder(client, tables) {
  const { rows } = await client.query(`
    SELECT conrelid::regclass::text AS child, confrelid::regclass::text AS parent FROM pg_constraint
    WHERE contype = 'f' AND connamespace = 'public'::regnamespace AND conrelid <> confrelid`);
  const bare = (name) => name.replace(/^"|"$/g, '');
  const left = new Map(tables.map((t) => [t.name, t]));
  const ordered = [];
  while (left.size > 0) {
    const ready = [...left.values()].filter((t) => !rows.some((k) => bare(k.child) === t.name && left.has(bare(k.parent))));
    if (ready.length === 0) throw new Error(`These tables point at each other in a ring: ${[...left.keys()].join(', ')}`);
    for (const table of ready) {
      ordered.push(table);
      left.delete(table.name);
    }
  }
  return ordered;
}

/** Nobody has a password in it: each active owner gets a link that opens once. @returns what follows the shop's address */
async function linksForOwners(client, at) {
  const { rows } = await client.query(`SELECT id, name FROM public."User" WHERE role = 'owner' AND active ORDER BY name`);
  const links = [];
  for (const { id, name } of rows) {
    const token = randomBytes(32).toString('base64url');
    const hash = createHash('sha256').update(token).digest('hex');
    await client.query(
      `INSERT INTO public."PasswordLink" (id, "tokenHash", "userId", purpose, "createdAt", "expiresAt") VALUES ($1, $2, $3, 'invitation', $4, $4::timestamptz + interval '7 days')`,
      [randomUUID(), hash, id, at],
    );
    links.push({ name, path: `/sign-in/link/${token}` });
  }
  return links;
}

async function fill(url, manifest, entries) {
  const client = new pg.Client({ connectionString: url });
  client.on('error', () => {});
  await client.connect();
  try {
    await client.query('BEGIN');
    await client.query(`SET LOCAL TimeZone = 'UTC'`);
    await client.query('CREATE TEMP TABLE incoming (n bigint GENERATED ALWAYS AS IDENTITY, line text) ON COMMIT DROP');
    await client.query('CREATE TEMP TABLE files (path text PRIMARY KEY, bytes bytea) ON COMMIT DROP');
    const tables = await inOrder(client, manifest.tables);
    // The rules were kept when it was written; some look at what is not there yet, and some let nothing be changed.
    for (const { name } of tables) await client.query(`ALTER TABLE public.${quoted(name)} DISABLE TRIGGER USER`);
    await client.query(`TRUNCATE ${tables.map(({ name }) => `public.${quoted(name)}`).join(', ')} CASCADE`);
    const pictures = [...entries.values()].filter((e) => !e.directory && /^(pictures|signatures|shop)\//.test(e.filename));
    await takePictures(client, pictures);
    for (const table of tables) {
      const entry = entries.get(`json/${table.name}.jsonl`);
      if (!entry) throw new Plain(`json/${table.name}.jsonl is not in the archive. Nothing was taken in.`);
      await fillTable(client, table, entry);
    }
    const expected = manifest.tables.reduce((n, t) => n + t.pictures, 0);
    if (pictures.length !== expected)
      throw new Plain(`${expected} pictures should be in it, ${pictures.length} are. Nothing was taken in.`);
    for (const { name, last } of manifest.counters) await client.query('SELECT setval($1::regclass, $2)', [`public.${quoted(name)}`, last]);
    for (const { name } of tables) await client.query(`ALTER TABLE public.${quoted(name)} ENABLE TRIGGER USER`);
    await client.query('COMMIT');
  } finally {
    await client.end();
  }
}

/**
 * A shop from the archive of everything, in a database that does not exist yet: laid out as it was, filled, then brought
 * up to date. It stands under another name until it is whole.
 * @param {string} file @param {string} url @param {Date} now
 * @returns {Promise<{ at: string, rows: Record<string, number>, migrated: string[], links: { name: string, path: string }[] }>}
 * @throws {Plain} when there is such a database already, or the file is not whole
 */
export async function takeIn(file, url, now) {
  if (await exists(url))
    throw new Plain(`There is a database ${databaseName(url)} already. Take it into a new one, or take that one away first.`);
  const handle = await open(file, 'r');
  const unfinished = withDatabase(url, `${databaseName(url)}_restoring`);
  try {
    const zip = new ZipReader(new FileOnDisk(handle, (await handle.stat()).size));
    const entries = new Map((await zip.getEntries()).map((e) => [e.filename, e]));
    const first = entries.get('manifest.json');
    if (!first) throw new Plain(`${file} is no archive of Rimebook.`);
    const manifest = JSON.parse(await textOf(first));
    if (!(manifest.format <= FORMAT)) throw new Plain(`${file} was made by a newer Rimebook. Update first.`);
    await drop(unfinished);
    await create(unfinished);
    await migrate(unfinished, manifest.migrations);
    await fill(unfinished, manifest, entries);
    const migrated = await migrate(unfinished);
    const links = await connected(unfinished, (client) => linksForOwners(client, now));
    await rename(unfinished, databaseName(url));
    return { at: manifest.madeAt, rows: Object.fromEntries(manifest.tables.map((t) => [t.name, t.rows])), migrated, links };
  } catch (error) {
    await drop(unfinished).catch(() => {});
    if (
      error instanceof Plain ||
      !/ERR_|Z_|zip|signature|central directory|CRC32|compressed|unexpected|JSON/i.test(`${error.code ?? ''} ${error.message}`)
    )
      throw error;
    throw new Plain(`${file} is damaged or was changed. Nothing was taken in. (${error.message})`);
  } finally {
    await handle.close();
  }
}
