import 'server-only';
import type { Tx } from './client';

/**
 * Runs `work` inside the caller's transaction so that its failure undoes only itself. Returns the error, or null.
 * PostgreSQL refuses everything after a failed statement until the savepoint is rolled back to.
 */
export async function attempt(tx: Tx, work: () => Promise<unknown>): Promise<unknown> {
  await tx.$executeRaw`SAVEPOINT attempt`;
  try {
    await work();
    await tx.$executeRaw`RELEASE SAVEPOINT attempt`;
    return null;
  } catch (error) {
    await tx.$executeRaw`ROLLBACK TO SAVEPOINT attempt`;
    await tx.$executeRaw`RELEASE SAVEPOINT attempt`;
    return error ?? new Error('unknown');
  }
}
