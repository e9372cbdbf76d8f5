import 'server-only';
import pg from 'pg';
import { to as copyTo } from 'pg-copy-streams';
import type { Readable } from 'node:stream';

/** A table as the database lays it out. `key`: the columns of its primary key. */
export type TableOnFile = { name: string; columns: ColumnOnFile[]; key: string[] };
export type ColumnOnFile = { name: string; type: string; isEnum: boolean; isArray: boolean; nullable: boolean; pointsTo: string | null };

/** Everything as of one moment, on a connection of its own, while the shop goes on working. */
export type Snapshot = {
  tables: () => Promise<TableOnFile[]>;
  enums: () => Promise<Map<string, string[]>>;
  rows: <R>(sql: string) => Promise<R[]>;
  /** Rows of a query, some at a time, so that many never stand in memory. */
  each: <R>(sql: string, atOnce: number) => AsyncGenerator<R[]>;
  /** A query's rows as CSV (RFC 4180, with a head), or its one JSON column a row a line, as they come. */
  copy: (sql: string, form: keyof typeof FORMS) => Readable;
};

const FORMS = {
  csv: 'FORMAT csv, HEADER true',
  // JSON has no such characters outside its own escapes: each row is a line as it is.
  json: `FORMAT csv, QUOTE e'\\x01', DELIMITER e'\\x02'`,
};

const COLUMNS = `
  SELECT c.relname::text AS table, a.attname::text AS name, format_type(a.atttypid, NULL) AS type, NOT a.attnotnull AS nullable,
    coalesce(el.typtype, t.typtype) = 'e' AS "isEnum", t.typcategory = 'A' AS "isArray",
    (SELECT k.confrelid::regclass::text FROM pg_constraint k WHERE k.contype = 'f' AND k.conrelid = c.oid AND k.conkey = ARRAY[a.attnum] LIMIT 1) AS "pointsTo",
    array_position((SELECT k.conkey FROM pg_constraint k WHERE k.contype = 'p' AND k.conrelid = c.oid), a.attnum) AS key
  FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = ''
    JOIN pg_type t ON t.oid = a.atttypid LEFT JOIN pg_type el ON el.oid = t.typelem AND t.typcategory = 'A'
  WHERE c.relnamespace = 'public'::regnamespace AND c.relkind = 'r' AND c.relname <> '_prisma_migrations'
  ORDER BY c.relname, a.attnum`;

type Row = Omit<ColumnOnFile, 'pointsTo'> & { table: string; pointsTo: string | null; key: number | null };

const bare = (name: string) => name.replace(/[[\]"]/g, '');

async function tables(client: pg.Client): Promise<TableOnFile[]> {
  const { rows } = await client.query<Row>(COLUMNS);
  const found = new Map<string, { table: TableOnFile; key: [number, string][] }>();
  for (const { table, key, pointsTo, ...column } of rows) {
    const at = found.get(table) ?? { table: { name: table, columns: [], key: [] }, key: [] };
    found.set(table, at);
    at.table.columns.push({ ...column, pointsTo: pointsTo === null ? null : bare(pointsTo) });
    if (key !== null) at.key.push([key, column.name]);
  }
  return [...found.values()].map(({ table, key }) => ({ ...table, key: key.sort((a, b) => a[0] - b[0]).map(([, name]) => name) }));
}

async function enums(client: pg.Client): Promise<Map<string, string[]>> {
  const { rows } = await client.query<{ name: string; members: string[] }>(
    `SELECT t.typname::text AS name, array_agg(e.enumlabel::text ORDER BY e.enumsortorder) AS members
     FROM pg_enum e JOIN pg_type t ON t.oid = e.enumtypid GROUP BY 1`,
  );
  return new Map(rows.map((r) => [r.name, r.members]));
}

async function* each<R>(client: pg.Client, sql: string, atOnce: number): AsyncGenerator<R[]> {
  await client.query(`DECLARE in_turn NO SCROLL CURSOR FOR ${sql}`);
  try {
    for (;;) {
      const { rows } = await client.query(`FETCH ${atOnce} FROM in_turn`);
      if (rows.length === 0) return;
      yield rows as R[];
    }
  } finally {
    await client.query('CLOSE in_turn');
  }
}

/**
 * Reads the whole database as of one moment.
 * @param url where it is; the connection is closed when `work` is done
 */
export async function withSnapshot<T>(url: string, work: (snapshot: Snapshot) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: url });
  // A connection lost meanwhile fails the query that waits on it.
  client.on('error', () => {});
  await client.connect();
  try {
    await client.query(`SET TimeZone = 'UTC'`);
    await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY');
    return await work({
      tables: () => tables(client),
      enums: () => enums(client),
      rows: async <R>(sql: string) => (await client.query(sql)).rows as R[],
      each: (sql, atOnce) => each(client, sql, atOnce),
      copy: (sql, form) => client.query(copyTo(`COPY (${sql}) TO STDOUT WITH (${FORMS[form]})`)),
    });
  } finally {
    await client.end();
  }
}
