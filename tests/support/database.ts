import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, inject } from 'vitest';
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
  // The driver says only once a process that two statements met on one connection, and the files of a worker share one.
  const met: string[] = [];
  const hear = ({ message }: Error) => void (message.includes('already executing a query') && met.push(message));

  beforeAll(async () => {
    process.on('warning', hear);
    const template = inject('databaseTemplate');
    const name = `${inject('databasePrefix')}_${randomUUID().slice(0, 8)}`;
    const url = withDatabase(template, name);
    await create(url, databaseName(template));
    open = { url, db: connect(url, 5) };
  });

  afterAll(async () => {
    await open?.db.$disconnect();
    if (open) await drop(open.url);
    process.off('warning', hear);
    expect(met, 'two statements at once on one connection').toEqual([]);
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
