import { beforeAll, expect, it } from 'vitest';
import { haveOneUnit } from '@/tests/support/factories';
import { useDatabase } from '@/tests/support/database';

const database = useDatabase();
beforeAll(() => haveOneUnit(database.db));

it('what is asked at once in one transaction takes turns on its connection, and one that fails holds up none', async () => {
  const warned: string[] = [];
  const hear = (w: Error) => void warned.push(w.message);
  process.on('warning', hear);
  try {
    // Two relations of one row, which the client asks for side by side.
    await database.db.$transaction((tx) =>
      tx.kitchen.findMany({
        relationLoadStrategy: 'query',
        include: { visits: true, units: { include: { tasks: true } }, customer: true },
      }),
    );
    const slow = (n: number) => `SELECT ${n} AS n FROM pg_sleep(0.02)`;
    const all = await database.db.$transaction((tx) => Promise.all([3, 1, 2].map((n) => tx.$queryRawUnsafe<{ n: number }[]>(slow(n)))));
    expect(all.flat().map((r) => r.n)).toEqual([3, 1, 2]);
    await database.db.$transaction(async (tx) => {
      await tx.$executeRaw`SAVEPOINT here`;
      const failed = tx.$queryRawUnsafe('SELECT 1/0').catch(() => 'failed');
      const back = tx.$executeRaw`ROLLBACK TO SAVEPOINT here`;
      expect([await failed, (await back) >= 0]).toEqual(['failed', true]);
    });
    await new Promise((ok) => setImmediate(ok));
  } finally {
    process.off('warning', hear);
  }
  expect(warned).toEqual([]);
});
