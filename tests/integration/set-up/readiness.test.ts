import { expect, it, vi } from 'vitest';
import { connect, type Db } from '@/lib/database/client';
import { readiness } from '@/lib/features/health/reads/readiness';
import { ready } from '@/lib/server/process/health';
import { useDatabase } from '../../support/database';

// The files of a worker share their modules: these see another environment.
vi.hoisted(() => vi.resetModules());
const database = useDatabase();

it('a server is ready while the database answers and no migration stands half done', async () => {
  const { db } = database;
  expect(await readiness(db)).toEqual({ ready: true, database: true, migrated: true });
  await db.$executeRaw`INSERT INTO _prisma_migrations (id, checksum, migration_name, started_at) VALUES ('half', 'x', '99999999000000_half', now())`;
  expect(await readiness(db)).toEqual({ ready: false, database: true, migrated: false });
  await db.$executeRaw`DELETE FROM _prisma_migrations WHERE id = 'half'`;
  const away = connect('postgresql://nobody@127.0.0.1:1/nowhere', 1);
  expect(await readiness(away)).toEqual({ ready: false, database: false, migrated: false });
  await away.$disconnect();
});

it('nor is it before it has read in what people open first', async () => {
  vi.stubEnv('DATABASE_URL', database.url);
  vi.stubEnv('NEXTAUTH_SECRET', 'a secret of this test alone');
  const held = globalThis as { rimebookReadIn?: boolean; rimebookHealthDb?: Db };
  for (const readIn of [false, true]) {
    held.rimebookReadIn = readIn;
    expect(await ready()).toEqual({ ready: readIn, database: true, migrated: true, readIn });
  }
  delete held.rimebookReadIn;
  await held.rimebookHealthDb?.$disconnect();
  delete held.rimebookHealthDb;
});
