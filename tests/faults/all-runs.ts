import 'fake-indexeddb/auto';
import { Office, bundleOffice } from './office';
import { rmSync } from 'node:fs';
import { connect } from '@/lib/database/client';
import { create, databaseName, drop, query, withDatabase } from '../../scripts/support/databases.mjs';
import { openTestServer } from '../../scripts/support/test-databases.mjs';
import { freePort } from '../../scripts/support/ports.mjs';
import { FAULTS } from './faulty-line';
import { oneRun } from './one-run';
import { havePeople, openShop } from './shop';

export type FaultReport = {
  seed: number;
  runs: number;
  entries: number;
  photos: number;
  faults: Record<string, number>;
  lost: number;
  doubled: number;
  unequal: number;
  seconds: number;
  problems: string[];
};

/** Runs the whole test on a database and an office of its own. */
export async function allRuns(given: {
  seed: number;
  runs: number;
  /** The first run's number: a long test can be made in parts. */
  from?: number;
  onRun?: (done: number, problems: readonly string[]) => void;
}): Promise<FaultReport> {
  const started = Date.now();
  const report: FaultReport = {
    seed: given.seed,
    runs: 0,
    entries: 0,
    photos: 0,
    faults: Object.fromEntries([...Object.keys(FAULTS), 'tablet_fell', 'moved_away'].map((f) => [f, 0])),
    lost: 0,
    doubled: 0,
    unequal: 0,
    seconds: 0,
    problems: [],
  };
  const server = await openTestServer();
  const url = server.url(`rimebook_test_faults_${process.pid}_${Date.now().toString(36)}`);
  await create(url, databaseName(await server.migrated()));
  const bundle = await bundleOffice();
  const office = new Office(
    bundle,
    await freePort(4700 + (process.pid % 200)),
    `${url}${url.includes('?') ? '&' : '?'}application_name=office`,
  );
  const db = connect(url, 4);
  const name = new URL(url).pathname.slice(1);
  const cutDatabase = async () => {
    // The office's connections name themselves; ours are left alone.
    await query(
      withDatabase(url, 'postgres'),
      "select pg_terminate_backend(pid) from pg_stat_activity where datname = $1 and application_name = 'office'",
      [name],
    );
  };
  try {
    await openShop(db);
    const people = await havePeople(db);
    await office.start();
    const killOffice = async () => {
      await office.kill();
      await office.start();
    };
    const from = given.from ?? 0;
    for (let run = from; run < from + given.runs; run++) {
      const verdict = await oneRun(
        { db, base: office.base, people, cutDatabase, killOffice, count: (f) => (report.faults[f] = (report.faults[f] ?? 0) + 1) },
        given.seed * 1_000_003 + run,
      );
      report.runs++;
      report.entries += verdict.entries;
      report.photos += verdict.photos;
      for (const kind of ['lost', 'doubled', 'unequal'] as const) {
        report[kind] += verdict[kind].length;
        for (const problem of verdict[kind]) report.problems.push(`run ${run}: ${kind}: ${problem}`);
      }
      given.onRun?.(report.runs, report.problems);
    }
  } finally {
    await office.kill();
    await db.$disconnect();
    await drop(url);
    await server.close();
    rmSync(bundle, { force: true });
  }
  report.seconds = Math.round((Date.now() - started) / 100) / 10;
  return report;
}
