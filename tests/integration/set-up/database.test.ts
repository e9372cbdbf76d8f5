import { describe, expect, it } from 'vitest';
import { query } from '../../../scripts/support/databases.mjs';
import { migrate, migrations } from '../../../scripts/support/migrations.mjs';
import { useDatabase } from '../../support/database';

describe('a test file’s own database', () => {
  const database = useDatabase();

  it('has every migration applied, by the record that Prisma keeps', async () => {
    const rows = await query(database.url, 'select migration_name, checksum, finished_at from _prisma_migrations order by 1');
    expect(rows.map((row) => [row.migration_name, row.checksum])).toEqual(migrations().map((m) => [m.name, m.checksum]));
    expect(rows.every((row) => row.finished_at !== null)).toBe(true);
    expect(await migrate(database.url)).toEqual([]);
  });

  it('starts without people and takes new ones', async () => {
    expect(await database.db.user.count()).toBe(0);
    await database.db.user.create({ data: { email: 'a@shop.example', name: 'A', role: 'owner', passwordHash: 'x' } });
    expect(await database.db.user.count()).toBe(1);
  });
});

describe('a migration that was edited after it had been applied', () => {
  const database = useDatabase();

  it('is refused by name', async () => {
    const [first] = migrations();
    await query(database.url, 'update _prisma_migrations set checksum = $1 where migration_name = $2', ['0', first?.name]);
    await expect(migrate(database.url)).rejects.toThrow(`${first?.name} was edited`);
  });
});
