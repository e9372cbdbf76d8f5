import { execFileSync } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import { connect, type Db } from '@/lib/database/client';
import { behindMs, longReads } from '@/lib/database/replica';
import { hand, openFolder } from '../../../scripts/support/account.mjs';
import { Cluster, THROWAWAY } from '../../../scripts/support/cluster.mjs';
import { query } from '../../../scripts/support/databases.mjs';
import { freePort } from '../../../scripts/support/ports.mjs';

// A real one: a second server that follows the first by streaming.
const home = mkdtempSync(path.join(os.tmpdir(), 'rimebook-replica-'));
// The server’s own account has to come through.
chmodSync(home, 0o755);
const first = new Cluster(path.join(home, 'first'));
const second = new Cluster(path.join(home, 'second'));
let own: Db;
let replica: Db;

beforeAll(async () => {
  await first.start(THROWAWAY);
  await query(first.url('postgres'), 'CREATE TABLE shop (at int)');
  await first.stop();
  openFolder(second.folder);
  // With whose the files are.
  execFileSync('cp', ['-a', first.data, second.data]);
  const { password } = first.settings;
  writeFileSync(second.facts, JSON.stringify({ password, port: await freePort() }));
  const signal = path.join(second.data, 'standby.signal');
  writeFileSync(signal, '');
  hand(signal);
  await first.start(THROWAWAY);
  await second.start([`primary_conninfo=host=127.0.0.1 port=${first.settings.port} user=postgres password=${password}`, ...THROWAWAY]);
  own = connect(first.url('postgres'), 2);
  replica = connect(second.url('postgres'), 2);
}, 120_000);

afterAll(async () => {
  await Promise.all([own?.$disconnect(), replica?.$disconnect()]);
  await second.stop();
  await first.stop();
  rmSync(home, { recursive: true, force: true });
});

it('long reads go to the replica while it follows, and to the shop’s own database when it is gone', async () => {
  await own.$executeRaw`INSERT INTO shop VALUES (1)`;
  await vi.waitFor(async () => expect(await replica.$queryRaw`SELECT at FROM shop`).toEqual([{ at: 1 }]), 20_000);
  expect(await behindMs(replica)).toBeLessThan(10_000);
  // The shop's own follows nobody: a copy that stands still is not taken for a replica.
  expect(await behindMs(own)).toBeNull();
  let now = 0;
  const said: string[] = [];
  const where = longReads(
    own,
    replica,
    () => now,
    (why) => void said.push(why),
  );
  expect(await where()).toBe(replica);
  await expect(replica.$executeRaw`INSERT INTO shop VALUES (2)`).rejects.toThrow(/read-only/);
  await second.stop();
  now = 6000;
  expect(await where()).toBe(own);
  expect(said).toHaveLength(1);
});
