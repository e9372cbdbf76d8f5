import { beforeAll, describe, expect, it } from 'vitest';
import type { Bucket } from '@/lib/core/due/buckets';
import { toGoBackTo, zonesOnFile, type DueFilter } from '@/lib/features/due/reads';
import { useDatabase } from '../../support/database';
import { haveOneUnit, jobRow, unitRow, visitRow, visitTaskRow } from '../../support/factories';

const database = useDatabase();
// Wednesday 4 March 2026: already Wednesday in Berlin, still Tuesday in Honolulu.
const now = new Date('2026-03-04T04:30:00Z');
const day = (d: string) => new Date(`${d}T00:00:00Z`);
const list = async (bucket: Bucket, filter: DueFilter = {}) =>
  toGoBackTo(database.db, await zonesOnFile(database.db, now), bucket, filter, { now, limit: 50 });
const seen = async (bucket: Bucket, filter: DueFilter = {}) => (await list(bucket, filter)).map((g) => `${g.kitchen} ${g.dueOn}`);

let berlin: Awaited<ReturnType<typeof haveOneUnit>>;
beforeAll(async () => {
  const { db } = database;
  berlin = await haveOneUnit(db, { kitchen: { name: 'Berlin', timeZone: 'Europe/Berlin' } });
  const honolulu = await haveOneUnit(db, { kitchen: { name: 'Honolulu', timeZone: 'Pacific/Honolulu' } });
  const off = await db.unit.create({ data: unitRow(berlin.kitchen.id, { name: 'Out of use', archivedAt: now }) });
  const wanted = (unit: { id: string; kitchenId: string }, dueOn: string | null, over = {}) =>
    jobRow(unit, { what: 'Go back: coil was packed', dueOn: dueOn === null ? null : day(dueOn), ...over });
  for (const data of [
    ...['2026-03-02', '2026-03-04', '2026-03-08', '2026-03-09', '2026-04-06'].map((d) => wanted(berlin.unit, d)),
    wanted(honolulu.unit, '2026-03-04'),
    wanted(berlin.unit, null),
    wanted(berlin.unit, '2026-03-02', { state: 'done', closedAt: now }),
    wanted(off, '2026-03-02'),
  ])
    await db.job.create({ data });
});

describe('what to go back to', () => {
  it('is open, dated, and due by the end of the part shown, by each kitchen’s own day', async () => {
    const come = ['Berlin 2026-03-02', 'Berlin 2026-03-04'];
    expect(await seen('overdue')).toEqual(come);
    const week = [...come, 'Honolulu 2026-03-04', 'Berlin 2026-03-08'];
    expect(await seen('week')).toEqual(week);
    expect(await seen('month')).toEqual([...week, 'Berlin 2026-03-09']);
  });

  it('is narrowed with the list, but not by a kind of task', async () => {
    expect(await seen('week', { q: 'honolulu' })).toEqual(['Honolulu 2026-03-04']);
    expect(await seen('week', { q: 'honolulu', kindKey: 'coil_cleaning' })).toEqual(['Honolulu 2026-03-04']);
  });

  it('tells the unit’s free tasks and the kitchen’s next visit', async () => {
    const { kitchen, person, tasks } = berlin;
    expect((await list('overdue'))[0]).toMatchObject({ next: null, taskIds: expect.arrayContaining(tasks.map((t) => t.id)) });
    const startsAt = new Date('2026-03-05T08:00:00Z');
    const visit = await database.db.visit.create({ data: visitRow(kitchen.id, person.id, startsAt, 60) });
    await database.db.visitTask.create({ data: visitTaskRow(visit.id, tasks[0]!) });
    const [first] = await list('overdue');
    expect(first?.next).toEqual({ visitId: visit.id, startsAt: startsAt.getTime(), technician: person.name });
    expect([...(first?.taskIds ?? [])].sort()).toEqual(
      tasks
        .slice(1)
        .map((t) => t.id)
        .sort(),
    );
  });
});
