import 'server-only';
import type { Tx } from '../../../database/client';

const SHOWN = 5;

/** The last archives with how far each is, newest first. `gone`: its bytes did not outlive a crash of the database. */
export async function archives(db: Tx, now: Date) {
  const rows = await db.archiveRun.findMany({
    where: { OR: [{ expiresAt: null }, { expiresAt: { gt: now } }] },
    orderBy: { createdAt: 'desc' },
    take: SHOWN,
    include: { _count: { select: { parts: true } } },
  });
  return rows.map(({ _count, bytes, claim: _, beatAt: __, ...run }) => ({
    ...run,
    bytes: Number(bytes),
    gone: run.status === 'done' && _count.parts !== run.pieces,
  }));
}
