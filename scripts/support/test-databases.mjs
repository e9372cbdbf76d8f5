import path from 'node:path';
import pg from 'pg';
import { Cluster, THROWAWAY } from './cluster.mjs';
import { create, drop, exists, namesBeginning, rename, requireServer, withDatabase } from './databases.mjs';
import { fingerprint } from './fingerprint.mjs';
import { waitForLock } from './lock.mjs';
import { migrate } from './migrations.mjs';
import { keep } from './paths.mjs';

/**
 * The server that tests make their databases on: the one DATABASE_URL names (its own database is left alone),
 * or a private one in .data/test-pg, started if it does not run.
 * @param {string} [own] address of a server of one's own
 */
export async function openTestServer(own = process.env.DATABASE_URL) {
  const cluster = own ? undefined : new Cluster(path.join(keep, 'test-pg'));
  const started = await cluster?.start(THROWAWAY);
  if (own) await requireServer(own);
  const server = own ?? cluster.url('postgres');
  // Held open so that another run that ends meanwhile does not stop the server under this one.
  const held = cluster && new pg.Client({ connectionString: server });
  held?.on('error', () => {});
  await held?.connect();

  const url = (database) => withDatabase(server, database);

  const dropBeginning = async (start) => {
    for (const name of await namesBeginning(server, start)) await drop(url(name));
  };
  // Left by a run that was cut short: nobody else can be using them on a server that has just started.
  if (started) await dropBeginning('rimebook_test_');

  /**
   * A database made once and kept while its key stays the same, for tests to copy.
   * @param {string} kind @param {string} key a fingerprint of what it is made from
   * @param {(url: string) => Promise<unknown>} fill is given an empty database
   * @returns {Promise<string>} its address
   */
  async function template(kind, key, fill) {
    const name = `rimebook_${kind}_${key}`;
    const release = await waitForLock(path.join(keep, `${kind}.lock`), 300_000);
    try {
      if (await exists(url(name))) return url(name);
      const unfinished = url(`rimebook_${kind}_unfinished`);
      // One kept for an earlier key is of no use any more.
      await dropBeginning(`rimebook_${kind}_`);
      await create(unfinished);
      await fill(unfinished);
      await rename(unfinished, name);
      return url(name);
    } finally {
      release();
    }
  }

  return {
    url,
    dropBeginning,
    template,

    /** A database with every migration applied and nothing in it. @returns {Promise<string>} its address */
    migrated: () => template('template', fingerprint(['prisma/migrations']), migrate),

    /** Stop the private server, unless another run is connected to it. */
    async close() {
      await held?.end();
      if (cluster && !cluster.kept) await cluster.stopIfIdle();
    },
  };
}
