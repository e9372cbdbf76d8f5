import pg from 'pg';
import { Plain } from './say.mjs';

/** The same server, another database. @param {string} url @param {string} database */
export function withDatabase(url, database) {
  const other = new URL(url);
  other.pathname = `/${encodeURIComponent(database)}`;
  return other.href;
}

/** @param {string} url @returns {string} the name of the database that an address points at */
export const databaseName = (url) => decodeURIComponent(new URL(url).pathname.slice(1)) || 'postgres';

/** An address without its password, for messages. */
function shown(url) {
  const safe = new URL(url);
  if (safe.password) safe.password = '…';
  return decodeURIComponent(safe.href);
}

/**
 * One statement on a connection of its own.
 * @param {string} url @param {string} sql @param {unknown[]} [values]
 * @returns {Promise<Record<string, any>[]>} the rows
 */
export async function query(url, sql, values) {
  const client = new pg.Client({ connectionString: url, connectionTimeoutMillis: 10_000 });
  // The server may go away while the connection closes; that is no error here.
  client.on('error', () => {});
  await client.connect();
  try {
    return (await client.query(sql, values)).rows;
  } finally {
    await client.end();
  }
}

/** Whether a server answers at this address. */
export async function canConnect(url) {
  try {
    await query(url, 'select 1');
    return true;
  } catch {
    return false;
  }
}

/** @throws {Plain} when no server answers at this address, or none that lets this account in */
export async function requireServer(url) {
  try {
    await exists(url);
  } catch (error) {
    throw new Plain(`No PostgreSQL answers at ${shown(url)}: ${error.message}`);
  }
}

/** A database on the same server that an administrator's statement can run from. */
async function administrate(url, sql, values) {
  const errors = [];
  for (const database of ['postgres', 'template1']) {
    try {
      return await query(withDatabase(url, database), sql, values);
    } catch (error) {
      // 3D000: there is no such database. 42501 and 28000: this account may not connect to it.
      if (!['3D000', '42501', '28000'].includes(error.code)) throw error;
      errors.push(error.message);
    }
  }
  throw new Plain(`${shown(url)} cannot be administrated: ${errors.join('; ')}`);
}

const quoted = (name) => `"${name.replaceAll('"', '""')}"`;

/** @param {string} url @returns {Promise<boolean>} whether the database it points at exists */
export async function exists(url) {
  try {
    await query(url, 'select 1');
    return true;
  } catch (error) {
    if (error.code === '3D000') return false;
    throw error;
  }
}

/** Create the database that `url` points at, empty or as a copy of another one on the same server. */
export async function create(url, template) {
  const copy = template ? ` template ${quoted(template)}` : '';
  await administrate(url, `create database ${quoted(databaseName(url))}${copy}`);
}

/** Remove the database that `url` points at, ending its connections. */
export async function drop(url) {
  await administrate(url, `drop database if exists ${quoted(databaseName(url))} with (force)`);
}

/** Give the database that `url` points at another name. */
export async function rename(url, name) {
  await administrate(url, `alter database ${quoted(databaseName(url))} rename to ${quoted(name)}`);
}

/** The names of databases that begin with these characters. */
export async function namesBeginning(url, start) {
  const rows = await administrate(url, 'select datname from pg_database where starts_with(datname, $1)', [start]);
  return rows.map((row) => row.datname);
}
