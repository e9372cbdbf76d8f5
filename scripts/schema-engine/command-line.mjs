import pg from 'pg';
import { databaseName, withDatabase } from '../support/databases.mjs';

/** End as the native engine ends on a database error: one line of JSON that Prisma turns into its own message. */
function fail(code, message) {
  const fields = { is_panic: false, error_code: code, message };
  const line = { timestamp: new Date().toISOString(), level: 'ERROR', fields, target: 'schema_engine::logger' };
  process.stderr.write(`\n${JSON.stringify(line)}\n`);
  process.exit(1);
}

function explain(error, url) {
  const { username, hostname, port } = new URL(url);
  if (error.code === '3D000') fail('P1003', `Database \`${databaseName(url)}\` does not exist`);
  if (error.code === '28P01') fail('P1000', `The database server refused the password of \`${username}\`.`);
  fail('P1001', `Can't reach database server at \`${hostname}:${port || 5432}\` (${error.message})`);
}

async function connected(url, work = () => undefined) {
  const client = new pg.Client({ connectionString: url, connectionTimeoutMillis: 10_000 });
  await client.connect();
  try {
    await work(client);
  } finally {
    await client.end();
  }
}

/** `schema-engine cli can-connect-to-database` */
export const checkServer = (url) => connected(url).catch((error) => explain(error, url));

/** `schema-engine cli create-database` */
export function createDatabase(url) {
  const work = (client) => client.query(`CREATE DATABASE ${client.escapeIdentifier(databaseName(url))}`);
  return connected(withDatabase(url, 'postgres'), work).catch((error) => explain(error, url));
}
