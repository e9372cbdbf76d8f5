import { beforeAll, describe, expect, it } from 'vitest';
import type { Bucket } from '@/lib/core/due/buckets';
import { dueCounts, duePage, toGoBackTo, zonesOnFile, type DueFilter } from '@/lib/features/due/reads';
import { useDatabase } from '../../support/database';
import { customerRow, haveTaskKinds, jobRow, kitchenRow, taskRow, unitRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');
const day = (d: string) => new Date(`${d}T00:00:00Z`);
type Placed = { id: string; kitchenId: string };
const unitOf = (kitchenId: string, over = {}) => database.db.unit.create({ data: unitRow(kitchenId, over) });

/** A kitchen of so many units, each with a coil that is due. */
async function kitchenOf(name: string, units: number, due: string, over = {}) {
  const { db } = database;
  const customer = await db.customer.create({ data: customerRow({ name: `${name} Ltd` }) });
  const kitchen = await db.kitchen.create({ data: kitchenRow(customer.id, { name, ...over }) });
  const rows = Array.from({ length: units }, (_, i) => unitRow(kitchen.id, { name: `Unit ${i}` }));
  await db.unit.createMany({ data: rows });
  await db.task.createMany({ data: rows.map((u) => taskRow({ id: u.id ?? '', kitchenId: kitchen.id }, { dueOn: day(due) })) });
  return kitchen;
}
const page = async (o: Parameters<typeof duePage>[4], filter: DueFilter = {}) =>
  duePage(database.db, await zonesOnFile(database.db, now), 'overdue', filter, o);

beforeAll(async () => {
  await haveTaskKinds(database.db);
  await kitchenOf('Largest', 160, '2026-01-01');
  await kitchenOf('Second', 100, '2026-01-02');
  await kitchenOf('Third', 40, '2026-01-03', { address: '5 Mill Lane' });
  await kitchenOf('Fourth', 20, '2026-01-04');
});

describe('a page of what is due', () => {
  it('holds whole kitchens, as many as a person can look through, at least one, and goes on where it ended', async () => {
    const first = await page({ limit: 50 });
    expect(first.kitchens.map((k) => [k.name, k.tasks.length, k.soonest])).toEqual([['Largest', 160, '2026-01-01']]);
    expect(first.next).toEqual({ soonest: '2026-01-01', kitchenId: first.kitchens[0]?.id });
    const second = await page({ after: first.next ?? undefined, limit: 50 });
    expect(second.kitchens.map((k) => k.name)).toEqual(['Second', 'Third']);
    const third = await page({ after: second.next ?? undefined, limit: 50 });
    expect([third.kitchens.map((k) => k.name), third.next]).toEqual([['Fourth'], null]);
    expect((await page({ after: first.next ?? undefined, limit: 1 })).kitchens.map((k) => k.name)).toEqual(['Second']);
  });

  it('says of each kitchen whose and where it is, and of each task what it is, from which day and how long it takes', async () => {
    const { kitchens } = await page({ limit: 50 }, { area: 'mill lane' });
    expect(kitchens).toMatchObject([
      {
        name: 'Third',
        customer: 'Third Ltd',
        address: '5 Mill Lane',
        timeZone: 'America/Denver',
        today: '2026-03-04',
        soonest: '2026-01-03',
      },
    ]);
    const kind = await database.db.taskKind.findUniqueOrThrow({ where: { key: 'coil_cleaning' } });
    expect(kitchens[0]?.tasks[0]).toMatchObject({
      ...{ unit: 'Unit 0', placement: 'fryer', refrigerant: 'R134a', roofWork: false, kindKey: 'coil_cleaning', kind: kind.label },
      ...{
        minutes: kind.minutes,
        dueOn: '2026-01-03',
        lastDoneOn: null,
        visitId: null,
        visitStartsAt: null,
        technician: null,
        locked: false,
      },
    });
    await database.db.task.updateMany({ where: { kitchenId: kitchens[0]?.id }, data: { lastDoneOn: day('2025-10-01') } });
    expect((await page({ limit: 50 }, { area: 'mill lane' })).kitchens[0]?.tasks[0]?.lastDoneOn).toBe('2025-10-01');
  });

  it('of one kitchen, one placement, or both is that; what fits neither is nothing', async () => {
    const { id } = await database.db.kitchen.findFirstOrThrow({ where: { name: 'Fourth' } });
    const bar = await unitOf(id, { name: 'Bar fridge', placement: 'bar' });
    await database.db.task.create({ data: taskRow(bar, { dueOn: day('2026-02-01') }) });
    const seen = async (filter: DueFilter) => (await page({ limit: 50 }, filter)).kitchens.map((k) => [k.name, k.tasks.length]);
    expect(await seen({ kitchenId: id })).toEqual([['Fourth', 21]]);
    expect(await seen({ kitchenId: id, placement: 'bar' })).toEqual([['Fourth', 1]]);
    expect(await seen({ q: 'bar fridge' })).toEqual([['Fourth', 1]]);
    expect(await seen({ q: 'third ltd' })).toEqual([['Third', 40]]);
    expect(await seen({ kitchenId: id, kindKey: 'drain_inspection' })).toEqual([]);
    const counts = await dueCounts(database.db, await zonesOnFile(database.db, now), { kitchenId: id, placement: 'bar' }, 30);
    expect([counts.overdue, counts.pastLimit, counts.week]).toEqual([
      { tasks: 1, kitchens: 1 },
      { tasks: 1, kitchens: 1 },
      { tasks: 0, kitchens: 0 },
    ]);
  });
});

describe('jobs to go back to', () => {
  const list = async (bucket: Bucket, filter: DueFilter = {}, limit = 50) =>
    toGoBackTo(database.db, await zonesOnFile(database.db, now), bucket, filter, { now, limit });

  it('stand by their first unit, the longest overdue first, so many and no more, with the unit’s free tasks by their day', async () => {
    const { db } = database;
    const kitchen = await kitchenOf('Jobs', 0, '2026-01-01');
    const [b, a] = [await unitOf(kitchen.id, { name: 'B unit' }), await unitOf(kitchen.id, { name: 'A unit' })];
    const tasks: string[] = [];
    for (const [kindKey, due] of [['drain_inspection', '2026-05-02'], ['coil_cleaning', '2026-05-01']] as const)
      tasks.push((await db.task.create({ data: taskRow(a, { kindKey, dueOn: day(due) }) })).id); // prettier-ignore
    await db.task.create({ data: taskRow(a, { kindKey: 'evaporator_inspection', dueOn: day('2026-04-01'), active: false }) });
    const wanted = (unit: Placed, what: string, dueOn: string, over = {}) =>
      db.job.create({ data: jobRow(unit, { what, note: 'Ring first', dueOn: day(dueOn), ...over }) });
    const both = await wanted(b, 'Both', '2026-03-01');
    await db.jobUnit.create({ data: { jobId: both.id, unitId: a.id } });
    await wanted(b, 'Older', '2026-02-01');
    await wanted(b, 'Tomorrow', '2026-03-05');
    expect((await list('overdue')).map((g) => [g.what, g.unit, g.dueOn, g.today])).toEqual([
      ['Older', 'B unit', '2026-02-01', '2026-03-04'],
      ['Both', 'A unit', '2026-03-01', '2026-03-04'],
    ]);
    expect((await list('overdue'))[1]).toMatchObject({
      ...{ id: both.id, note: 'Ring first', unitId: a.id, kitchenId: kitchen.id, kitchen: 'Jobs', timeZone: 'America/Denver', next: null },
      taskIds: tasks.toReversed(),
    });
    expect((await list('week')).map((g) => g.what)).toEqual(['Older', 'Both', 'Tomorrow']);
    expect((await list('week', {}, 2)).map((g) => g.what)).toEqual(['Older', 'Both']);
    expect(await list('week', { kitchenId: kitchen.id, placement: 'bar' })).toEqual([]);
    await db.kitchen.update({ where: { id: kitchen.id }, data: { archivedAt: now } });
    expect(await list('month')).toEqual([]);
  });
});
