import { createHash, randomUUID } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import pg from 'pg';
import { inProject } from './paths.mjs';
import { Plain } from './say.mjs';

/** The advisory lock that Prisma's own engine takes, so that the two never migrate at once. */
const PRISMA_LOCK = 72707369;

const TABLE = `CREATE TABLE IF NOT EXISTS _prisma_migrations (
  id VARCHAR(36) PRIMARY KEY NOT NULL, checksum VARCHAR(64) NOT NULL, finished_at TIMESTAMPTZ,
  migration_name VARCHAR(255) NOT NULL, logs TEXT, rolled_back_at TIMESTAMPTZ,
  started_at TIMESTAMPTZ NOT NULL DEFAULT now(), applied_steps_count INTEGER NOT NULL DEFAULT 0)`;

/** The project's migrations in order. @returns {{ name: string, sql: string, checksum: string }[]} */
export function migrations() {
  const file = (name) => inProject('prisma/migrations', name, 'migration.sql');
  const names = readdirSync(inProject('prisma/migrations')).filter((name) => existsSync(file(name)));
  return names.sort().map((name) => {
    const sql = readFileSync(file(name), 'utf8');
    return { name, sql, checksum: createHash('sha256').update(sql).digest('hex') };
  });
}

/**
 * Apply what is not applied yet, with pg alone, and write the rows that `prisma migrate` expects to find.
 * Each migration is one transaction: it is applied whole or not at all.
 * @param {string} url
 * @param {{ name: string, checksum: string }[]} [only] no further than these: the layout of an older release
 * @returns {Promise<string[]>} the names applied now
 * @throws {Plain} when one failed before, was edited after it was applied, or is not known here
 */
export async function migrate(url, only) {
  const client = new pg.Client({ connectionString: url });
  client.on('error', () => {});
  await client.connect();
  try {
    await client.query('SELECT pg_advisory_lock($1)', [PRISMA_LOCK]);
    await client.query(TABLE);
    const { rows } = await client.query('SELECT * FROM _prisma_migrations WHERE rolled_back_at IS NULL');
    const done = new Map(rows.map((row) => [row.migration_name, row]));
    const applied = [];
    for (const migration of only ? those(only) : migrations()) {
      if (isDone(migration, done.get(migration.name))) continue;
      await apply(client, migration);
      applied.push(migration.name);
    }
    return applied;
  } finally {
    await client.end();
  }
}

/** The names that `migrate` would apply. @param {string} url @returns {Promise<string[]>} */
export async function pending(url) {
  const client = new pg.Client({ connectionString: url });
  client.on('error', () => {});
  await client.connect();
  try {
    await client.query(TABLE);
    const { rows } = await client.query('SELECT migration_name AS name FROM _prisma_migrations WHERE rolled_back_at IS NULL');
    const done = new Set(rows.map((row) => row.name));
    return migrations().flatMap(({ name }) => (done.has(name) ? [] : [name]));
  } finally {
    await client.end();
  }
}

/** The project's own migrations that are named, which must be the same to the letter. */
function those(named) {
  const byName = new Map(migrations().map((m) => [m.name, m]));
  return named.map(({ name, checksum }) => {
    const own = byName.get(name);
    if (own?.checksum !== checksum)
      throw new Plain(`This Rimebook does not know the layout ${name}: it is older than what it is to read, or another.`);
    return own;
  });
}

function isDone({ name, checksum }, row) {
  if (!row) return false;
  if (!row.finished_at) throw new Plain(`Migration ${name} failed earlier and is half applied:\n${row.logs ?? ''}`);
  if (row.checksum !== checksum) throw new Plain(`Migration ${name} was edited after it had been applied here.`);
  return true;
}

async function apply(client, { name, sql, checksum }) {
  try {
    await client.query('BEGIN');
    await client.query(sql);
    await client.query(
      'INSERT INTO _prisma_migrations (id, checksum, migration_name, finished_at, applied_steps_count) VALUES ($1, $2, $3, now(), 1)',
      [randomUUID(), checksum, name],
    );
    await client.query('COMMIT');
  } catch (error) {
    await client.query('ROLLBACK').catch(() => {});
    throw new Plain(`Migration ${name} failed, and nothing of it was kept: ${error.message}`);
  }
}
