import { describe, expect, it } from 'vitest';
import { dueCounts, duePage, overdueNow, zonesOnFile, type DueCursor, type DueFilter } from '@/lib/features/due/reads';
import type { Bucket } from '@/lib/core/due/buckets';
import { customerRow, kitchenRow, personRow, taskRow, unitRow, visitRow, visitTaskRow } from '../../support/factories';
import { haveLargeFleet } from '../../support/fleet';
import { useDatabase } from '../../support/database';

const day = (d: string) => new Date(`${d}T00:00:00Z`);

describe('the due list over time zones', () => {
  const database = useDatabase();
  // Wednesday 4 March 2026, 04:30 UTC: still Tuesday in Honolulu and Chicago, already Wednesday in Berlin and Auckland.
  const now = new Date('2026-03-04T04:30:00Z');
  const seen = async (bucket: Bucket, filter: DueFilter = {}) => {
    const { kitchens } = await duePage(database.db, await zonesOnFile(database.db, now), bucket, filter, { limit: 50 });
    return kitchens.flatMap((k) => k.tasks.map((t) => `${k.name} ${t.dueOn}`)).sort();
  };

  it('cuts overdue, this week and the next four weeks by each kitchen’s own day', async () => {
    const { db } = database;
    const customer = await db.customer.create({ data: customerRow({ name: 'Juniper' }) });
    const place = async (name: string, timeZone: string, due: string[]) => {
      const kitchen = await db.kitchen.create({ data: kitchenRow(customer.id, { name, timeZone }) });
      for (const [i, d] of due.entries()) {
        const unit = await db.unit.create({ data: unitRow(kitchen.id, { name: `Unit ${i}` }) });
        await db.task.create({ data: taskRow(unit, { dueOn: day(d) }) });
      }
    };
    const dates = ['2026-03-02', '2026-03-03', '2026-03-04', '2026-03-08', '2026-03-09', '2026-04-05', '2026-04-06'];
    await place('Honolulu', 'Pacific/Honolulu', dates);
    await place('Berlin', 'Europe/Berlin', dates);
    expect(await seen('overdue')).toEqual(['Berlin 2026-03-02', 'Berlin 2026-03-03', 'Honolulu 2026-03-02']);
    expect(await seen('week')).toEqual([
      'Berlin 2026-03-04',
      'Berlin 2026-03-08',
      'Honolulu 2026-03-03',
      'Honolulu 2026-03-04',
      'Honolulu 2026-03-08',
    ]);
    expect(await seen('month')).toEqual(['Berlin 2026-03-09', 'Berlin 2026-04-05', 'Honolulu 2026-03-09', 'Honolulu 2026-04-05']);
    const counts = await dueCounts(db, await zonesOnFile(db, now), {}, 0);
    expect(counts).toEqual({
      overdue: { tasks: 3, kitchens: 2 },
      week: { tasks: 5, kitchens: 2 },
      month: { tasks: 4, kitchens: 2 },
      pastLimit: { tasks: 3, kitchens: 2 },
    });
    expect((await dueCounts(db, await zonesOnFile(db, now), {}, 1)).pastLimit).toEqual({ tasks: 1, kitchens: 1 });
    expect(await overdueNow(db, now, 1)).toEqual({ tasks: 3, kitchens: 2, toBook: 3, pastLimit: 1 });
  });

  it('ends the week on Sunday, also when that is a matter of the zone', async () => {
    // Half past midnight on Monday in Berlin, early on Sunday afternoon in Honolulu.
    const zones = await zonesOnFile(database.db, new Date('2026-03-08T23:30:00Z'));
    const of = (zone: string) => zones.find((z) => z.zone === zone)?.dates.week;
    expect(of('Pacific/Honolulu')).toEqual({ from: '2026-03-08', to: '2026-03-09' });
    expect(of('Europe/Berlin')).toEqual({ from: '2026-03-09', to: '2026-03-16' });
  });

  it('leaves out what is booked, taken off or archived, and shows booked ones when asked', async () => {
    const { db } = database;
    const kitchen = await db.kitchen.findFirstOrThrow({ where: { name: 'Berlin' } });
    const [one, two] = await db.task.findMany({
      where: { kitchenId: kitchen.id, dueOn: { lt: day('2026-03-04') } },
      orderBy: { dueOn: 'asc' },
    });
    if (!one || !two) throw new Error('two overdue tasks were made above');
    const technician = await db.user.create({ data: personRow({ name: 'Tova Lind' }) });
    const visit = await db.visit.create({ data: visitRow(kitchen.id, technician.id, new Date('2026-03-05T08:00:00Z'), 60) });
    await db.visitTask.create({ data: visitTaskRow(visit.id, one) });
    await db.task.update({ where: { id: two.id }, data: { active: false } });
    expect(await seen('overdue')).toEqual(['Honolulu 2026-03-02']);
    expect(await seen('overdue', { booked: true })).toEqual(['Berlin 2026-03-02', 'Honolulu 2026-03-02']);
    const { kitchens } = await duePage(db, await zonesOnFile(db, now), 'overdue', { booked: true }, { limit: 50 });
    expect(kitchens.flatMap((k) => k.tasks).find((t) => t.visitId)).toMatchObject({
      technician: 'Tova Lind',
      visitStartsAt: Date.parse('2026-03-05T08:00:00Z'),
    });
    await db.kitchen.update({ where: { id: kitchen.id }, data: { archivedAt: now } });
    expect(await seen('overdue', { booked: true })).toEqual(['Honolulu 2026-03-02']);
  });
});

describe('the due list of a large fleet', () => {
  const database = useDatabase();
  const now = new Date('2026-03-04T18:00:00Z');

  it('pages through every kitchen once, in order, and agrees with a plain count', async () => {
    const { db } = database;
    await haveLargeFleet(db, 2000, '2026-03-04');
    const zones = await zonesOnFile(db, now);
    const counts = await dueCounts(db, zones, {}, 14);
    let after: DueCursor | undefined;
    const kitchens: string[] = [];
    const soonest: string[] = [];
    let tasks = 0;
    for (let page = 0; page < 100; page++) {
      const { kitchens: part, next } = await duePage(db, zones, 'overdue', {}, { after, limit: 17 });
      kitchens.push(...part.map((k) => k.id));
      soonest.push(...part.map((k) => k.soonest));
      tasks += part.reduce((sum, k) => sum + k.tasks.length, 0);
      if (!next) break;
      after = next;
    }
    expect(new Set(kitchens).size).toBe(kitchens.length);
    expect(soonest).toEqual([...soonest].sort());
    expect({ tasks, kitchens: kitchens.length }).toEqual(counts.overdue);
    // All zones of this fleet are on 4 March at this hour.
    const plain = await db.task.count({ where: { active: true, dueOn: { lt: day('2026-03-04') }, visitTasks: { none: { open: true } } } });
    expect(tasks).toBe(plain);
    const late = await db.task.count({ where: { active: true, dueOn: { lt: day('2026-02-18') }, visitTasks: { none: { open: true } } } });
    expect(counts.pastLimit.tasks).toBe(late);
  });

  it('narrows by every filter as a plain query would', async () => {
    const { db } = database;
    const zones = await zonesOnFile(db, now);
    const free = { active: true, dueOn: { lt: day('2026-03-04') }, visitTasks: { none: { open: true } } };
    const some = { contains: 'norwick', mode: 'insensitive' as const };
    const count = async (filter: DueFilter) => (await dueCounts(db, zones, filter, 14)).overdue.tasks;
    expect(await count({ area: 'norwick' })).toBe(await db.task.count({ where: { ...free, kitchen: { address: some } } }));
    expect(await count({ kindKey: 'coil_cleaning' })).toBe(await db.task.count({ where: { ...free, kindKey: 'coil_cleaning' } }));
    expect(await count({ placement: 'bar' })).toBe(await db.task.count({ where: { ...free, unit: { placement: 'bar' } } }));
    const q = { contains: 'chain 1', mode: 'insensitive' as const };
    expect(await count({ q: 'chain 1' })).toBe(
      await db.task.count({
        where: { ...free, OR: [{ kitchen: { name: q } }, { kitchen: { customer: { name: q } } }, { unit: { name: q } }] },
      }),
    );
    expect(await count({ q: 'Reach-in 12' })).toBeGreaterThan(0);
    expect(await count({ q: '100%' })).toBe(0);
    expect(await count({ q: 'nothing of this name' })).toBe(0);
  });
});

describe('an empty shop', () => {
  const database = useDatabase();
  it('has an empty list', async () => {
    const zones = await zonesOnFile(database.db, new Date('2026-03-04T18:00:00Z'));
    expect(zones).toEqual([]);
    expect((await duePage(database.db, zones, 'overdue', {}, { limit: 10 })).kitchens).toEqual([]);
    expect((await dueCounts(database.db, zones, {}, 14)).overdue).toEqual({ tasks: 0, kitchens: 0 });
  });
});
