import { dueCounts, duePage, zonesOnFile, type DueFilter } from '../lib/features/due/reads';
import type { Db } from '../lib/database/client';
import { findRecords } from '../lib/features/find/reads/find';
import { checkImport } from '../lib/features/fleet-csv/verbs/check-import';
import { runImport, startImport } from '../lib/features/fleet-csv/verbs/run-import';
import { fleetCsv } from '../tests/support/fleet-csv';
import { haveLargeFleet } from '../tests/support/fleet';
import { withDatabase } from './database';
import type { BenchRow } from './types';

const NOW = new Date('2026-03-04T18:00:00Z');
const UNITS = 50_000;

/** Quickest of several in ms: other work on the machine only ever adds. */
async function quickest(times: number, work: () => Promise<unknown>): Promise<number> {
  let best = Infinity;
  for (let i = 0; i < times; i++) {
    const start = performance.now();
    await work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
}

type Times = { first: number; deep: number; narrowed: number; counts: number; found: number };
let measured: Promise<Times> | undefined;

/** What people type: a common word, a street, a tag, a serial, a phone number, and what is nowhere. */
async function slowestOf(db: Db): Promise<number> {
  const one = await db.unit.findFirstOrThrow({ include: { kitchen: true }, orderBy: { id: 'asc' } });
  const typed = ['reach-in', 'reach-in 12', one.kitchen.address.slice(0, 12), one.tag, one.serial || 'ks-4471', '555 0142', 'xyzzy'];
  let worst = 0;
  for (const q of typed) worst = Math.max(worst, await quickest(5, () => findRecords(db, q)));
  return worst;
}

const dueTimes = () =>
  (measured ??= withDatabase(async (db) => {
    await haveLargeFleet(db, UNITS, '2026-03-04');
    const zones = await zonesOnFile(db, NOW);
    const page = (filter: DueFilter, after?: Parameters<typeof duePage>[4]['after']) =>
      duePage(db, zones, 'overdue', filter, { after, limit: 25 });
    let { next } = await page({});
    for (let i = 0; i < 20 && next; i++) next = (await page({}, next)).next;
    return {
      first: await quickest(8, () => page({})),
      deep: await quickest(8, () => page({}, next ?? undefined)),
      narrowed: await quickest(8, () => page({ q: 'reach-in 12', area: 'norwick', placement: 'fryer' })),
      counts: await quickest(8, () => dueCounts(db, zones, {}, 14)),
      found: await slowestOf(db),
    };
  }));

const row = (name: string, part: keyof Times): BenchRow => ({
  name: `due list of ${UNITS.toLocaleString('en-US')} units, ${name}`,
  unit: 'ms',
  target: '< 300 ms',
  run: async () => ({ value: (await dueTimes())[part] }),
});

const importTime = () =>
  withDatabase(async (db) => {
    const { id: userId } = await db.user.create({
      data: { email: 'bench@shop.example', name: 'Bench', role: 'owner', passwordHash: 'none' },
    });
    await db.shopSettings.create({ data: { id: 1, name: 'Bench', timeZone: 'America/Chicago' } });
    const ctx = { db, actor: { userId }, now: NOW };
    const csv = fleetCsv(5000);
    const start = performance.now();
    const { runId } = await checkImport(ctx, { fileName: 'fleet.csv', csv });
    await startImport(ctx, runId);
    await runImport(ctx, runId);
    const value = (performance.now() - start) / 1000;
    const units = await db.unit.count();
    if (units !== 5000) throw new Error(`${units} units are on file`);
    return { value };
  });

export const rows: BenchRow[] = [
  row('first page of overdue', 'first'),
  row('twenty pages on', 'deep'),
  row('searched and narrowed', 'narrowed'),
  row('counts of all parts', 'counts'),
  {
    name: `finding one of ${UNITS.toLocaleString('en-US')} units by a piece of it, the slowest`,
    unit: 'ms',
    target: '< 150 ms',
    run: async () => ({ value: (await dueTimes()).found }),
  },
  { name: 'import of 5,000 units, dry run and all', unit: 's', target: '< 20 s', run: importTime },
];
