import { expect, it } from 'vitest';
import { connect } from '@/lib/database/client';
import { readiness } from '@/lib/features/health/reads/readiness';
import { useDatabase } from '../../support/database';

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
