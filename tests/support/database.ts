import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, inject } from 'vitest';
import { connect, type Db } from '@/lib/database/client';
import { create, databaseName, drop, withDatabase } from '../../scripts/support/databases.mjs';

export type TestDatabase = {
  /** Address of this file's own database. */
  readonly url: string;
  /** A client connected to it. */
  readonly db: Db;
};

/**
 * A database for this test file alone, with every migration applied and nothing in it.
 * Call it once at the top of the file; use the result inside tests. It is removed after the file's last test.
 *
 * @example
 * const database = useDatabase();
 * it('saves a kitchen', async () => { await database.db.kitchen.create(...) });
 */
export function useDatabase(): TestDatabase {
  let open: TestDatabase | undefined;

  beforeAll(async () => {
    const template = inject('databaseTemplate');
    const name = `${inject('databasePrefix')}_${randomUUID().slice(0, 8)}`;
    const url = withDatabase(template, name);
    await create(url, databaseName(template));
    open = { url, db: connect(url, 5) };
  });

  afterAll(async () => {
    await open?.db.$disconnect();
    if (open) await drop(open.url);
  });

  const opened = () => {
    if (!open) throw new Error('The database exists only while tests run: use it inside a test or a hook.');
    return open;
  };
  return {
    get url() {
      return opened().url;
    },
    get db() {
      return opened().db;
    },
  };
}
