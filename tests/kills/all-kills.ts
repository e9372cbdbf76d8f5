import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { connect } from '@/lib/database/client';
import { Cluster } from '../../scripts/support/cluster.mjs';
import { create, query } from '../../scripts/support/databases.mjs';
import { migrate } from '../../scripts/support/migrations.mjs';
import { freePort, isFree } from '../../scripts/support/ports.mjs';
import { bundleOffice, Office } from '../faults/office';
import { randomFrom, type Random } from '../faults/random';
import { havePeople, haveRound, openShop } from '../faults/shop';
import { judgeKills } from './judge';
import { smallDisk } from './small-disk';
import { Writer, type Told } from './writer';

export type KillReport = {
  seed: number;
  officeKills: number;
  databaseKills: number;
  clockJumps: number;
  /** How often the database's disk was full for a while; null where none could be made small enough. */
  diskFull: number | null;
  acknowledged: number;
  pictures: number;
  answers: Record<string, number>;
  lost: number;
  doubled: number;
  seconds: number;
  problems: string[];
};

// Everything as a shop has it, but for a write-ahead log that fits on a small disk.
const SETTINGS = ['max_wal_size=64MB', 'min_wal_size=32MB', 'shared_buffers=32MB'];
const WRITERS = 4;
const JUMP_EVERY = 8;
const MOST_JUMP_MS = 3 * 86_400_000;
const FULL_MS = 2500;
/** Of a twentieth of a second each. */
const PATIENCE = 400;
const sleep = (ms: number) => new Promise((ok) => setTimeout(ok, ms));

/** `kills` of each, `full` disks among them; no new one is begun after `minutes`. */
type Given = { seed: number; kills: number; full: number; minutes: number; onKill?: (done: number) => void };

/** Kills of the office and of its database by turns, while tablets write; full disks spread among them. Then everything is counted. */
export async function allKills(given: Given): Promise<KillReport> {
  const started = Date.now();
  const random = randomFrom(given.seed);
  const disk = given.full > 0 ? smallDisk() : null;
  const home = disk?.folder ?? mkdtempSync(path.join(os.tmpdir(), 'rimebook-kills-'));
  // The database’s own account has to come through.
  chmodSync(home, 0o755);
  const cluster = new Cluster(path.join(home, 'pg'));
  await cluster.start(SETTINGS);
  const url = cluster.url('shop');
  await create(url);
  await migrate(url);
  const bundle = await bundleOffice();
  const office = new Office(bundle, await freePort(4900), url);
  const told: Told = { entries: new Set(), pictures: new Set(), sent: new Set(), answers: {}, wrong: [] };
  const report = { officeKills: 0, databaseKills: 0, clockJumps: 0, full: 0 };
  let going = true;
  try {
    const desk = await openDesk(url, office);
    const writers = Array.from({ length: WRITERS }, () => new Writer(desk, told).run(() => going));
    for (let i = 0; i < 2 * given.kills && Date.now() - started < given.minutes * 60_000; i++) {
      // Mostly while tablets are being answered, now and then while it still comes back from the kill before.
      if (random.chance(0.75)) await untilWritten(told);
      await sleep(150 + random.whole(700));
      if (i % 2 === 0) await killOffice(office, random, report);
      else await killDatabase(cluster, random, report);
      if (disk && i > 0 && i % Math.max(1, Math.floor((2 * given.kills) / (given.full + 1))) === 0 && report.full < given.full) {
        disk.fill();
        await sleep(FULL_MS);
        disk.free();
        report.full++;
        await standUp(cluster);
      }
      given.onKill?.(i + 1);
    }
    await standUp(cluster);
    await sleep(3000);
    going = false;
    await Promise.all(writers);
    const { lost, doubled, problems } = await judgeKills(url, told);
    const { officeKills, databaseKills, clockJumps, full } = report;
    if (told.entries.size < officeKills + databaseKills)
      problems.push(
        `${told.entries.size} entries acknowledged over ${officeKills + databaseKills} kills: this machine is too slow to say anything`,
      );
    return {
      seed: given.seed, officeKills, databaseKills, clockJumps, diskFull: disk ? full : null,
      acknowledged: told.entries.size, pictures: told.pictures.size, answers: told.answers, lost, doubled,
      seconds: Math.round((Date.now() - started) / 1000), problems: [...told.wrong, ...problems],
    }; // prettier-ignore
  } finally {
    going = false;
    await office.kill();
    await cluster.stop().catch(() => undefined);
    if (disk) disk.remove();
    else rmSync(home, { recursive: true, force: true });
    rmSync(bundle, { force: true });
  }
}

/** Until something more is acknowledged, or for long enough: a disk may be full. */
async function untilWritten(told: Told): Promise<void> {
  const before = told.entries.size;
  for (let i = 0; i < PATIENCE && told.entries.size === before; i++) await sleep(50);
}

async function openDesk(url: string, office: Office) {
  const db = connect(url, 2);
  try {
    await openShop(db);
    const people = await havePeople(db);
    // A clock that jumps some days ahead is not to sign anybody out.
    await query(url, `UPDATE "StaffSession" SET "expiresAt" = now() + interval '29 days'`);
    const round = await haveRound(db, people);
    await office.start();
    return { base: () => office.base, cookie: people.cookie, holder: people.personId, visitId: round.visitIds[0] ?? '' };
  } finally {
    await db.$disconnect();
  }
}

type Count = { officeKills: number; databaseKills: number; clockJumps: number };

async function killOffice(office: Office, random: Random, count: Count): Promise<void> {
  await office.kill();
  count.officeKills++;
  const jump = count.officeKills % JUMP_EVERY === 0;
  if (jump) count.clockJumps++;
  // The office's clock starts somewhere else, and goes on from there.
  if (jump) process.env.RIMEBOOK_CLOCK = new Date(Date.now() + random.whole(2 * MOST_JUMP_MS) - MOST_JUMP_MS).toISOString();
  else delete process.env.RIMEBOOK_CLOCK;
  await office.start();
}

/** The whole server, or one of its processes, which brings the others down with it. */
async function killDatabase(cluster: Cluster, random: Random, count: Count): Promise<void> {
  const pid = cluster.pid();
  const one = random.chance(0.5) ? await aProcess(cluster) : null;
  process.kill(one ?? pid, 'SIGKILL');
  count.databaseKills++;
  if (one === null) await standUp(cluster);
}

async function aProcess(cluster: Cluster): Promise<number | null> {
  const rows = await query(cluster.url('postgres'), `SELECT pid FROM pg_stat_activity WHERE datname = 'shop' LIMIT 1`).catch(() => []);
  return rows[0]?.pid ?? null;
}

/** Until it answers, on the port it had. */
async function standUp(cluster: Cluster): Promise<void> {
  for (let i = 0; i < 400; i++) {
    if (await cluster.isUp()) return;
    if (!cluster.pid() && (await isFree(cluster.settings.port))) await cluster.start(SETTINGS).catch(() => undefined);
    await sleep(50);
  }
  throw new Error(`The database does not come back: ${cluster.log}`);
}
