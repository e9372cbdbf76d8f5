import { describe, expect, it } from 'vitest';
import { overdueTable } from '@/lib/core/owner/overdue';
import { gasLost, jobsWaiting, quoteMoney, warrantiesEnding } from '@/lib/features/owner/reads/shop-money';
import { overdueGroups, workDone } from '@/lib/features/owner/reads/shop-work';
import { callOuts, visitLines } from '@/lib/features/owner/reads/visit-lines';
import { exportVisits } from '@/lib/features/owner/verbs/export-visits';
import { useDatabase } from '../../support/database';
import { ANY_TIME, findingRow, haveOneUnit, jobRow, kitchenRow, personRow, visitRow, visitTaskRow } from '../../support/factories';

const database = useDatabase();
const ZONE = 'America/Denver';
const now = new Date('2026-06-15T18:00:00Z');
const at = (text: string) => new Date(`${text}Z`);
const period = ['2026-05-01', '2026-06-01', ZONE] as const;

describe('what the owner is told of the shop', () => {
  it('counts visits, hours, ways, calls after a visit, quotes and gas of a period, each as it happened', async () => {
    const { db } = database;
    const { customer, kitchen, unit, person, tasks } = await haveOneUnit(db, {
      kitchen: { lat: 40, lng: -105 },
      person: { role: 'technician' },
    });
    const other = await db.kitchen.create({ data: kitchenRow(customer.id, { name: 'A degree north', lat: 41, lng: -105 }) });
    const nowhere = await db.kitchen.create({ data: kitchenRow(customer.id, { name: 'Without a place', lat: null, lng: null }) });
    const visit = (kitchenId: string, start: string, over: object) =>
      db.visit.create({ data: visitRow(kitchenId, person.id, at(start), 60, over) });
    const done = (start: string, minutes: number) => ({
      status: 'done' as const, closedAt: at(start), arrivedAt: at(start), leftAt: new Date(at(start).getTime() + minutes * 60_000),
    }); // prettier-ignore
    const first = await visit(kitchen.id, '2026-05-04T15:00:00', done('2026-05-04T15:10:00', 90));
    await visit(other.id, '2026-05-04T18:00:00', done('2026-05-04T18:00:00', 30));
    await visit(nowhere.id, '2026-05-04T20:00:00', { status: 'done', closedAt: at('2026-05-04T21:00:00') });
    await visit(kitchen.id, '2026-05-05T15:00:00', { status: 'cancelled', cancelReason: 'Inspector' });
    // Late on the last evening in Denver is in the period, by UTC it would not be.
    await visit(kitchen.id, '2026-06-01T03:00:00', {});
    await db.$transaction(async (tx) => {
      await tx.finding.createMany({
        data: [
          findingRow(first.id, unit.id, 'coil', 'furred', now),
          findingRow(first.id, unit.id, 'coil', 'bare', now, { phase: 'left' }),
          findingRow(first.id, unit.id, 'ice', 'dry', now),
          findingRow(first.id, unit.id, 'drain', 'runs', now),
        ],
      });
      await tx.visitTask.create({ data: visitTaskRow(first.id, tasks[0]!, { outcome: 'done', open: false }) });
    });

    const work = await workDone(db, ...period, now);
    expect(work).toMatchObject({ planned: 4, done: 3, cancelled: 1, unclosed: 1, hours: 2, timed: 2, legs: 1, unknownLegs: 1 });
    // A degree of latitude is 111.2 km; 1.3 times that at 35 km/h.
    expect(work.roadHours).toBeCloseTo((111.195 * 1.3) / 35, 2);
    await db.travelTime.create({ data: { fromKitchenId: kitchen.id, toKitchenId: other.id, minutes: 90 } });
    expect((await workDone(db, ...period, now)).roadHours).toBeCloseTo(1.5, 9);

    expect(await callOuts(db, ...period, now)).toEqual({ visits: 1, followed: 0, latest: [] });
    const called = { source: 'call', createdAt: at('2026-06-03T12:00:00') } as const;
    const job = await db.job.create({ data: jobRow(unit, called) });
    expect(await callOuts(db, ...period, now)).toEqual({
      visits: 1,
      followed: 1,
      latest: [{ visitId: first.id, day: '2026-05-04', kitchen: kitchen.name, customer: customer.name, jobId: job.id, what: job.what }],
    });
    // Each number opens to the visits that it is made of.
    const lines = await visitLines(db, ...period, now);
    const total = (of: (line: (typeof lines)[number]) => number | null) => lines.reduce((n, line) => n + (of(line) ?? 0), 0);
    expect(lines.map((v) => v.status)).toEqual(['done', 'done', 'done', 'cancelled', 'booked']);
    expect(total((v) => v.there)).toBe(120);
    expect(total((v) => v.road)).toBe(90);
    expect(lines.map((v) => v.job)).toEqual([job.number, null, null, null, null]);
    const csv = await exportVisits({ db, now }, { from: '2026-05-01', until: '2026-05-31' });
    expect(csv.split('\r\n')[1]).toMatch(new RegExp(`^2026-05-04,.*,done,.*,90\\.0,,${job.number},${first.id}$`));
    await db.job.update({ where: { id: job.id }, data: { createdAt: at('2026-06-04T12:00:00') } });
    expect(await callOuts(db, ...period, now)).toEqual({ visits: 1, followed: 0, latest: [] });
    expect(await callOuts(db, ...period, at('2026-05-20T00:00:00'))).toEqual({ visits: 0, followed: 0, latest: [] });

    const quote = { jobId: job.id, lines: { v: 1, lines: [] }, netCents: 100, taxCents: 8, totalCents: 108, currency: 'USD', validUntil: now, reason: 'x', sentAt: now }; // prettier-ignore
    await db.quote.create({ data: { ...quote, version: 1, supersededAt: now, netCents: 9991, totalCents: 9999 } });
    await db.quote.create({ data: { ...quote, version: 2 } });
    expect(await quoteMoney(db, ...period)).toMatchObject([{ waiting: 1, waitingCents: 108, accepted: 0, declined: 0 }]);
    expect(await jobsWaiting(db)).toMatchObject([{ state: 'asked', jobs: 1 }]);

    const cylinder = await db.cylinder.create({
      data: { label: 'C1', refrigerant: 'R290', contents: 'new', tareKg: 5, firstKg: 5, mostKg: 9 },
    });
    const line = { cylinderId: cylinder.id, unitId: unit.id, byUserId: person.id, overruledBy: 'O', overruledWhy: 'test', at: at('2026-05-10T12:00:00') } as const; // prettier-ignore
    await db.cylinderEntry.create({ data: { ...line, way: 'charged', kg: -0.4 } });
    const wrong = await db.cylinderEntry.create({ data: { ...line, way: 'charged', kg: -0.7 } });
    await db.cylinderEntry.create({ data: { ...line, way: 'charged', kg: 0.7, correctsId: wrong.id, note: 'Wrong scale' } });
    expect(await gasLost(db, ...period)).toEqual([{ refrigerant: 'R290', chargedKg: 0.4, recoveredKg: 0, units: 1 }]);
    expect(await gasLost(db, '2026-06-01', '2026-07-01', ZONE)).toEqual([]);

    await db.warranty.create({ data: { unitId: unit.id, what: 'Compressor', until: at('2026-07-01T00:00:00') } });
    expect((await warrantiesEnding(db, now, at('2026-07-10T00:00:00'))).count).toBe(1);
    expect((await warrantiesEnding(db, now, at('2026-06-20T00:00:00'))).count).toBe(0);
  });

  it('says why overdue work waits: the first reason that holds', async () => {
    const { db } = database;
    await db.user.updateMany({ data: { active: false } });
    await db.task.updateMany({ data: { active: false } });
    const due = { dueOn: at('2026-06-01T00:00:00') };
    const task = [{ kindKey: 'coil_cleaning', ...due }];
    const { person } = await haveOneUnit(db, {
      tasks: task,
      person: { role: 'technician', shifts: ANY_TIME, skills: [] },
      unit: { refrigerant: 'R404A' },
    });
    await haveOneUnit(db, { tasks: task, unit: { refrigerant: 'R290' }, person: { active: false } });
    await haveOneUnit(db, {
      tasks: [{ ...task[0]!, dueOn: at('2026-01-01T00:00:00') }],
      unit: { refrigerant: 'R404A', roofWork: true },
      person: { active: false },
    });
    const { groups, crew } = await overdueGroups(db, now);
    expect(overdueTable(groups, crew)).toEqual([
      { reason: 'skill', total: 2, by: { week: 0, month: 1, quarter: 0, older: 1 } },
      { reason: 'nobody_booked', total: 1, by: { week: 0, month: 1, quarter: 0, older: 0 } },
    ]);
    await db.user.update({
      where: { id: person.id },
      data: { skills: ['flammable', 'roof'], shifts: [{ weekday: 0, from: '20:00', to: '23:00' }] },
    });
    const later = await overdueGroups(db, now);
    expect(overdueTable(later.groups, later.crew)).toMatchObject([{ reason: 'hours', total: 3 }]);
  });

  it('groups overdue work by its age in days, what it needs, and whether it is booked or nobody was there', async () => {
    const { db } = database;
    await db.task.updateMany({ data: { active: false } });
    await db.user.updateMany({ data: { active: false } });
    const overdue = async (dueOn: string, over: { kitchen?: object; unit?: object; task?: object } = {}) =>
      haveOneUnit(db, {
        tasks: [{ kindKey: 'coil_cleaning', dueOn: at(`${dueOn}T00:00:00`), ...over.task }],
        kitchen: over.kitchen ?? {},
        unit: { refrigerant: 'R404A', ...over.unit },
        person: { active: false },
      });
    // The fifteenth of June is today; a week, thirty and ninety days back are still of the younger group.
    for (const day of ['2026-06-15', '2026-06-14', '2026-06-08', '2026-06-07', '2026-05-16', '2026-05-15', '2026-03-17', '2026-03-16'])
      await overdue(day);
    await overdue('2026-06-01', { unit: { archivedAt: now } });
    await overdue('2026-06-01', { kitchen: { archivedAt: now } });
    await overdue('2026-06-01', { task: { active: false } });
    // It is the sixteenth there already.
    await overdue('2026-06-15', { kitchen: { timeZone: 'Pacific/Auckland' }, unit: { refrigerant: 'R290', roofWork: true } });
    const ages = (await overdueGroups(db, now)).groups.filter((g) => g.refrigerant === 'R404A' && !g.booked);
    const tasksOf = (age: string) => ages.filter((g) => g.age === age).reduce((n, g) => n + g.tasks, 0);
    expect(['week', 'month', 'quarter', 'older'].map(tasksOf)).toEqual([2, 2, 2, 1]);
    expect((await overdueGroups(db, now)).groups.filter((g) => g.refrigerant === 'R290')).toMatchObject([
      { age: 'week', tasks: 1, roofWork: true },
    ]);

    const booked = await overdue('2026-06-10', { unit: { refrigerant: 'R22' } });
    const visit = await db.visit.create({ data: visitRow(booked.kitchen.id, booked.person.id, at('2026-06-20T15:00:00'), 60) });
    await db.visitTask.create({ data: visitTaskRow(visit.id, booked.tasks[0]!) });
    const mine = async () => (await overdueGroups(db, now)).groups.filter((g) => g.refrigerant === 'R22');
    expect(await mine()).toMatchObject([{ tasks: 1, booked: true, otherTime: false, nobodyThere: false }]);
    await db.visit.update({ where: { id: visit.id }, data: { customerReply: 'other_time' } });
    const closed = (start: string, nobodyThere: boolean) =>
      db.visit.create({
        data: visitRow(booked.kitchen.id, booked.person.id, at(start), 60, { status: 'done', closedAt: at(start), nobodyThere }),
      });
    await closed('2026-05-01T15:00:00', false);
    await closed('2026-05-20T15:00:00', true);
    expect(await mine()).toMatchObject([{ booked: true, otherTime: true, nobodyThere: true, hours: expect.any(Array) }]);
    await closed('2026-05-25T15:00:00', false);
    expect(await mine()).toMatchObject([{ nobodyThere: false }]);
    expect((await overdueGroups(db, now)).crew).toEqual([]);
    await db.user.update({ where: { id: booked.person.id }, data: { active: true, skills: ['roof'] } });
    await db.user.create({ data: personRow({ role: 'dispatcher' }) });
    expect((await overdueGroups(db, now)).crew).toMatchObject([{ skills: ['roof'] }]);
  });

  it('tells quotes answered in the period, whose they still are, gas by what went in and came out, and open jobs with the oldest', async () => {
    const { db } = database;
    const { unit, person } = await haveOneUnit(db);
    const quote = async (currency: string, over: object, job: object = {}) => {
      const { id: jobId } = await db.job.create({ data: jobRow(unit, { createdAt: at('2026-04-01T12:00:00'), ...job }) });
      await db.quote.create({
        data: { jobId, version: 1, lines: { v: 1, lines: [] }, netCents: 500, taxCents: 0, totalCents: 500, currency, validUntil: now, reason: '', sentAt: at('2026-05-01T12:00:00'), ...over },
      }); // prettier-ignore
    };
    const answered = (answer: 'accepted' | 'declined', when: string) => ({ answer, answeredAt: at(when), answeredBy: 'Ilse' });
    await quote('EUR', {});
    await quote('EUR', { sentAt: null });
    await quote('EUR', {}, { state: 'done', closedAt: now, closedNote: 'By telephone' });
    // Eight in the evening of the thirty-first of May in Denver, and a minute before the first.
    await quote('EUR', answered('accepted', '2026-06-01T02:00:00'));
    await quote('EUR', answered('accepted', '2026-06-01T06:00:00'));
    await quote('EUR', answered('declined', '2026-05-01T06:00:00'));
    await quote('EUR', answered('declined', '2026-05-01T05:59:00'));
    await quote('AUD', {});
    const all = await quoteMoney(db, ...period);
    expect(all.map((q) => q.currency)).toEqual(all.map((q) => q.currency).toSorted());
    expect(all.find((q) => q.currency === 'EUR')).toEqual({
      currency: 'EUR', waiting: 1, waitingCents: 500, accepted: 1, acceptedCents: 500, declined: 1,
    }); // prettier-ignore
    const waiting = await jobsWaiting(db);
    expect(waiting.find((j) => j.state === 'asked')).toMatchObject({ oldest: at('2026-04-01T12:00:00') });
    expect(waiting.map((j) => j.state)).not.toContain('done');

    const cylinder = async (refrigerant: string) =>
      (await db.cylinder.create({ data: { label: `C ${refrigerant}`, refrigerant, contents: 'new', tareKg: 5, firstKg: 9, mostKg: 12 } }))
        .id;
    const [a, b] = [await cylinder('R404A'), await cylinder('R134a')];
    const line = (cylinderId: string, way: 'charged' | 'recovered' | 'bought', kg: number, when: string) =>
      db.cylinderEntry.create({
        data: { cylinderId, way, kg, unitId: way === 'bought' ? null : unit.id, byUserId: person.id, overruledBy: 'O', overruledWhy: 'test', at: at(when) },
      }); // prettier-ignore
    await line(a, 'charged', -0.5, '2026-05-01T06:00:00');
    await line(a, 'charged', -2, '2026-05-01T05:59:00');
    await line(a, 'recovered', 0.25, '2026-06-01T05:59:00');
    await line(a, 'recovered', 4, '2026-06-01T06:00:00');
    await line(a, 'bought', 3, '2026-05-10T12:00:00');
    await line(b, 'charged', -1.5, '2026-05-10T12:00:00');
    const gas = (await gasLost(db, ...period)).filter((g) => g.refrigerant !== 'R290');
    expect(gas).toEqual([
      { refrigerant: 'R134a', chargedKg: 1.5, recoveredKg: 0, units: 1 },
      { refrigerant: 'R404A', chargedKg: 0.5, recoveredKg: 0.25, units: 1 },
    ]);
  });

  it('is a file with a row for each visit: who, when, how long, and what nobody knows left empty', async () => {
    const { db } = database;
    const { kitchen, customer, person } = await haveOneUnit(db, { kitchen: { name: '=Oak' }, person: { name: 'Zed' } });
    const visit = (start: string, over: object) => db.visit.create({ data: visitRow(kitchen.id, person.id, at(start), 60, over) });
    const done = await visit('2026-04-10T15:00:00', {
      status: 'done', closedAt: at('2026-04-10T16:00:00'), arrivedAt: at('2026-04-10T15:05:00'), leftAt: at('2026-04-10T15:35:00'), nobodyThere: true,
    }); // prettier-ignore
    const gone = await visit('2026-04-11T15:00:00', { status: 'cancelled', cancelReason: 'Closed' });
    const csv = (await exportVisits({ db, now }, { from: '2026-04-10', until: '2026-04-11' })).split('\r\n');
    expect(csv[0]).toBe(
      '\uFEFFday,kitchen,customer,technician,state,nobody there,begins,ends,arrived,left,minutes there,minutes on the road to it,"call-out within 30 days, job",visit',
    );
    expect(csv.slice(1)).toEqual([
      `2026-04-10,'=Oak,${customer.name},Zed,done,yes,2026-04-10T15:00:00.000Z,2026-04-10T16:00:00.000Z,2026-04-10T15:05:00.000Z,2026-04-10T15:35:00.000Z,30.0,,,${done.id}`,
      `2026-04-11,'=Oak,${customer.name},Zed,cancelled,,2026-04-11T15:00:00.000Z,2026-04-11T16:00:00.000Z,,,,,,${gone.id}`,
      '',
    ]);
  });
});
