import { connect, type Db } from '../lib/database/client';
import { create, databaseName, drop } from '../scripts/support/databases.mjs';
import { openTestServer } from '../scripts/support/test-databases.mjs';

/** A migrated database of our own, gone when the work is done. */
export async function withDatabase<T>(work: (db: Db) => Promise<T>): Promise<T> {
  const server = await openTestServer();
  const url = server.url(`rimebook_bench_${process.pid}`);
  await create(url, databaseName(await server.migrated()));
  const db = connect(url, 4);
  try {
    return await work(db);
  } finally {
    await db.$disconnect();
    await drop(url);
    await server.close();
  }
}
