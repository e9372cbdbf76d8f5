import { randomUUID } from 'node:crypto';
import { PrismaPg } from '@prisma/adapter-pg';
import { ColumnTypeEnum } from '@prisma/driver-adapter-utils';
import pg from 'pg';
import { query, withDatabase } from '../support/databases.mjs';

// PostgreSQL's numbers for its own types (pg_type.oid).
const CHAR = 18;
const TEXT = 25;
const NAME_ARRAY = 1003;
const TEXT_ARRAY = 1009;

/**
 * The pg adapter does not know two types that only the catalogue has, "char" and name[]:
 * read them as text, and report "char" as a character.
 */
function readCatalogueTypes(queryable) {
  const performIO = queryable.performIO.bind(queryable);
  const queryRaw = queryable.queryRaw;
  queryable.queryRaw = async (statement) => {
    const characters = [];
    const io = async (input) => {
      const result = await performIO(input);
      result.fields.forEach((field, i) => {
        if (field.dataTypeID === CHAR) characters.push(i);
        if (field.dataTypeID === CHAR) field.dataTypeID = TEXT;
        if (field.dataTypeID === NAME_ARRAY) field.dataTypeID = TEXT_ARRAY;
      });
      return result;
    };
    const result = await queryRaw.call(Object.create(queryable, { performIO: { value: io } }), statement);
    for (const i of characters) result.columnTypes[i] = ColumnTypeEnum.Character;
    return result;
  };
  return queryable;
}

async function open(connectionString, afterwards) {
  const schema = new URL(connectionString).searchParams.get('schema') ?? 'public';
  const options = schema === 'public' ? undefined : `-c search_path=${schema}`;
  const pool = new pg.Pool({ connectionString, options, max: 1, idleTimeoutMillis: 50, allowExitOnIdle: true });
  const adapter = readCatalogueTypes(await new PrismaPg(pool, { schema }).connect());
  const startTransaction = adapter.startTransaction.bind(adapter);
  adapter.startTransaction = async (level) => readCatalogueTypes(await startTransaction(level));
  // The adapter's own executeScript splits at every semicolon, also inside a function's body.
  adapter.executeScript = (sql) =>
    pool.query(sql).then(
      () => undefined,
      (error) => adapter.onError(error),
    );
  adapter.dispose = async () => {
    await pool.end();
    await afterwards?.();
  };
  return adapter;
}

/**
 * What the engine asks for connections.
 * @param {string} url the database to migrate
 * @param {string} [shadowUrl] a scratch database to use instead of a temporary one
 */
export function adapterFactory(url, shadowUrl) {
  return {
    provider: 'postgres',
    adapterName: '@prisma/adapter-pg',
    connect: () => open(url),
    async connectToShadowDb() {
      if (shadowUrl) return open(shadowUrl);
      const name = `prisma_migrate_shadow_db_${randomUUID()}`;
      await query(url, `CREATE DATABASE "${name}"`);
      return open(withDatabase(url, name), () => query(url, `DROP DATABASE IF EXISTS "${name}"`));
    },
  };
}
