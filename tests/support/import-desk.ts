import { beforeAll, expect } from 'vitest';
import { importRun } from '@/lib/features/fleet-csv/reads/imports';
import { checkImport } from '@/lib/features/fleet-csv/verbs/check-import';
import { runImport, startImport } from '@/lib/features/fleet-csv/verbs/run-import';
import { useDatabase } from './database';
import { personRow } from './factories';

/** An empty shop whose owner brings in files: `put` checks one, and runs it where nothing is wrong with it. */
export function useImportDesk() {
  const database = useDatabase();
  const now = new Date('2026-03-04T18:00:00Z');
  const actor = { userId: '00000000-0000-4000-8000-000000000001' };
  const ctx = () => ({ db: database.db, actor, now });

  beforeAll(async () => {
    await database.db.user.create({ data: personRow({ id: actor.userId, role: 'owner' }) });
    await database.db.shopSettings.create({ data: { id: 1, name: 'Shop', timeZone: 'America/Chicago' } });
  });

  async function put(csv: string) {
    const { runId } = await checkImport(ctx(), { fileName: 'fleet.csv', csv });
    const checked = await importRun(database.db, runId);
    if (checked?.report.summary.errors === 0) {
      await startImport(ctx(), runId);
      await runImport(ctx(), runId);
    }
    return (await importRun(database.db, runId)) ?? expect.fail('the run is gone');
  }
  const counts = async () => ({
    customers: await database.db.customer.count(),
    kitchens: await database.db.kitchen.count(),
    units: await database.db.unit.count(),
    tasks: await database.db.task.count(),
  });
  return { database, now, actor, ctx, put, counts };
}
