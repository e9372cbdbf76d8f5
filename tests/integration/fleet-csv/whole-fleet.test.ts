import { describe, expect, it } from 'vitest';
import { whole } from '../../support/whole';
import { exportFleet } from '@/lib/features/fleet-csv/verbs/export-fleet';
import { importRun } from '@/lib/features/fleet-csv/reads/imports';
import { useImportDesk } from '../../support/import-desk';
import { fleetCsv } from '../../support/fleet-csv';

const { database, ctx, put, counts } = useImportDesk();
/** The refrigerant book hangs on units and refuses to be emptied: its guard stands aside here. */
const wipe = () =>
  database.db.$transaction([
    database.db.$executeRaw`SET LOCAL session_replication_role = replica`,
    database.db.$executeRaw`TRUNCATE "Customer", "Kitchen", "Unit", "Task" CASCADE`,
  ]);

describe('a whole fleet', () => {
  it('takes 5,000 rows in one go, in well under a minute', async () => {
    const started = performance.now();
    const run = await put(fleetCsv(5000));
    expect([run.status, run.report.problems]).toEqual(['done', []]);
    expect(performance.now() - started).toBeLessThan(30_000);
    expect(await counts()).toEqual({ customers: 157, kitchens: 625, units: 5000, tasks: run.report.summary.tasks });
    expect(run.doneRows).toBe(5000);
    expect(run.csv).toBe('');
    expect(await database.db.unit.count({ where: { notes: 'Says "hum" at night, a little' } })).toBe(5000);
  });

  it('comes out in pieces, the first at once, and none of them large', async () => {
    const from = performance.now();
    let firstMs = Infinity;
    let largest = 0;
    let pieces = 0;
    for await (const piece of exportFleet(ctx())) {
      firstMs = Math.min(firstMs, performance.now() - from);
      largest = Math.max(largest, piece.length);
      pieces++;
    }
    expect(firstMs).toBeLessThan(300);
    expect(pieces).toBeGreaterThan(10);
    expect(largest).toBeLessThan(500_000);
  });

  it('comes out in the columns it went in by, and goes in again the same', async () => {
    const first = await whole(exportFleet(ctx()));
    expect(first.split('\r\n')).toHaveLength(5002);
    await wipe();
    const run = await put(first);
    expect([run.status, run.report.problems]).toEqual(['done', []]);
    expect(await whole(exportFleet(ctx()))).toBe(first);
  });

  it('does not fall due all on one day', async () => {
    const days = await database.db.task.groupBy({ by: ['dueOn'], where: { kindKey: 'coil_cleaning' }, _count: true });
    expect(Math.max(...days.map((d) => d._count))).toBeLessThan(5000 / 5);
  });

  it('is refused a second time, unit by unit', async () => {
    const before = await counts();
    const run = await put(await whole(exportFleet(ctx())));
    expect(run.status).toBe('checked');
    expect(run.report.summary.errors).toBe(2 * 5000);
    expect(new Set(run.report.problems.map((p) => p.column))).toEqual(new Set(['tag', 'unit']));
    expect(await counts()).toEqual(before);
    // A page reads only as many as it shows, and how many there are.
    const page = await importRun(database.db, run.id, 200);
    expect(page?.report).toEqual({ ...run.report, problems: run.report.problems.slice(0, 200) });
    expect([page?.kept, run.report.problems.length]).toEqual([5000, 5000]);
  });
});
