import 'server-only';
import type { Db } from '../../../database/client';

const PATIENCE_MS = 2000;

export type Readiness = { ready: boolean; database: boolean; migrated: boolean };

/** Whether requests can be served: the database answers within two seconds, and no migration stands half done. */
export async function readiness(db: Db): Promise<Readiness> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<null>((resolve) => (timer = setTimeout(() => resolve(null), PATIENCE_MS)));
  const asked = db.$queryRaw<{ unfinished: bigint }[]>`
    SELECT count(*) AS unfinished FROM _prisma_migrations WHERE finished_at IS NULL AND rolled_back_at IS NULL`.catch(() => null);
  const rows = await Promise.race([asked, late]);
  clearTimeout(timer);
  const migrated = rows?.[0]?.unfinished === 0n;
  return { ready: rows !== null && migrated, database: rows !== null, migrated };
}

/** What waits, by kind, for the numbers that a shop's monitor reads. */
export async function backlog(db: Db) {
  const [outbox, plans] = await Promise.all([
    db.outboxMessage.groupBy({ by: ['status'], _count: true }),
    db.planRun.groupBy({ by: ['status'], _count: true }),
  ]);
  return {
    outbox: outbox.map(({ status, _count }) => ({ status, count: _count })),
    plans: plans.map(({ status, _count }) => ({ status, count: _count })),
  };
}
