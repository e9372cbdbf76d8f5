import path from 'node:path';
import { Cluster, THROWAWAY } from '../../scripts/support/cluster.mjs';
import { create, databaseName, drop, exists, query, rename } from '../../scripts/support/databases.mjs';
import { enlarge } from '../../scripts/support/large-shop.mjs';
import { migrate } from '../../scripts/support/migrations.mjs';
import { keep } from '../../scripts/support/paths.mjs';
import { makeDemo } from '../../scripts/support/shop.mjs';

/** A server of its own that counts statements and the time they take. */
export async function openScaleServer() {
  const cluster = new Cluster(path.join(keep, 'scale-pg'));
  await cluster.start([...THROWAWAY, 'shared_preload_libraries=pg_stat_statements', 'shared_buffers=512MB', 'max_wal_size=4GB']);
  return cluster;
}

/** A large shop, made once and kept; brought up to today's layout. @returns its address and the day at which its record ends */
export async function largeShop(cluster: Cluster, units: number): Promise<{ url: string; clock: string }> {
  const url = cluster.url(`rimebook_scale_${units}`);
  if (!(await exists(url))) {
    const demo = cluster.url('rimebook_scale_demo');
    if (!(await exists(demo))) {
      const half = cluster.url('rimebook_scale_demo_half');
      await drop(half);
      await create(half);
      await makeDemo(half);
      await rename(half, databaseName(demo));
    }
    const half = cluster.url(`rimebook_scale_${units}_half`);
    await drop(half);
    await create(half, databaseName(demo));
    await migrate(half);
    await enlarge(half, units);
    await rename(half, databaseName(url));
  }
  await migrate(url);
  await query(url, 'CREATE EXTENSION IF NOT EXISTS pg_stat_statements');
  const [row] = await query(url, `SELECT max("fittedAt") AS made FROM "FleetPrior"`);
  const [last] = await query(url, `SELECT max("startsAt") AS at FROM "Visit" WHERE status = 'done'`);
  const at = new Date(Math.max(Number(row?.made ?? 0), Number(last?.at ?? 0)));
  at.setUTCHours(18, 0, 0, 0);
  return { url, clock: at.toISOString() };
}
