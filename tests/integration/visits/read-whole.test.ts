import { beforeAll, describe, expect, it } from 'vitest';
import { addDays, localDate, todayIn, type LocalDate } from '@/lib/core/calendar';
import type { VisitReport } from '@/lib/core/tablet/visit-report';
import { visitsOnFile } from '@/lib/features/tablet/reads/visits-on-file';
import { openVisitsOn, pastNotClosed } from '@/lib/features/visits/reads/open-visits';
import { timeAtVisits } from '@/lib/features/visits/reads/time-on-units';
import { unbookedKitchens } from '@/lib/features/visits/reads/unbooked';
import { visitReport } from '@/lib/features/visits/reads/visit-report';
import { kitchenTasks, nextVisit, visitInTheWay, visitsBetween, visitToManage } from '@/lib/features/visits/reads/visits';
import { moveVisit } from '@/lib/features/visits/verbs/move-visit';
import { useDatabase } from '../../support/database';
import { ANY_TIME, haveOneUnit, personRow, visitRow, visitTaskRow } from '../../support/factories';
import { finding, haveVisit, MORNING, Tablet } from '../tablet/a-tablet';

const database = useDatabase();
const HOUR = 3_600_000;
const at = (minutes: number) => new Date(MORNING.getTime() + minutes * 60_000);
const PNG = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3]).toString('base64');

/** A visit that says something of everything, closed; and one of the next week that only stands. */
let shop: Awaited<ReturnType<typeof haveVisit>>;
let report: VisitReport;
let nextId: string;
let idris: { id: string };

beforeAll(async () => {
  const { db } = database;
  shop = await haveVisit(db);
  const { visit, unit, person, kitchen, tasks } = shop;
  await db.user.update({ where: { id: person.id }, data: { name: 'Tova Lind', shifts: ANY_TIME } });
  await db.kitchen.update({
    where: { id: kitchen.id },
    data: { serviceHours: ANY_TIME, contactName: '', contactPhone: '', contactEmail: '' },
  });
  await db.customer.update({
    where: { id: kitchen.customerId },
    data: { contactName: 'Ilse Braun', phone: '555 010 7788', email: 'ilse@example.com' },
  });
  idris = await db.user.create({ data: personRow({ name: 'Idris Fenn', role: 'dispatcher' }) });
  const tablet = new Tablet(db, { id: person.id, name: 'Tova Lind' });
  const taskIds = tasks.map((t) => t.id);
  const [coil, ...others] = taskIds;
  const read = { unitId: unit.id, gaugeGrade: null, gaugeSpanPa: null, entered: {}, replaces: null };
  const reply = await tablet.send(
    [
      tablet.make(visit.id, 'visit.start', { arrivedAt: at(2).toISOString() }),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'furred')),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'matted', { note: 'Grease at the top' })),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'ice', 'dry')),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'drain', null)),
      tablet.make(visit.id, 'reading.add', {
        ...read,
        phase: 'before',
        values: { airInK: 310, steadyMinutes: 20 },
        questioned: [{ field: 'airInK', question: 'Warm for a kitchen?', answer: 'Beside the fryer' }],
      }),
      tablet.make(visit.id, 'photo.attach', {
        ...{ unitId: unit.id, sha256: 'c'.repeat(64), aspect: 'coil', phase: 'before', bytes: 1000, takenAt: at(12).toISOString() },
      }),
      tablet.make(visit.id, 'part.use', { unitId: unit.id, what: 'Belt', quantity: 2 }),
      tablet.make(visit.id, 'follow_up.add', { unitId: unit.id, what: 'New gasket', urgency: 'next', note: '' }),
      tablet.make(visit.id, 'food_warning.add', { unitId: unit.id, boxK: 284, toldTo: 'Chef', toldAt: at(14).toISOString(), note: 'Fish' }),
      tablet.make(visit.id, 'event.add', { unitId: unit.id, kind: 'fan_replaced', at: at(15).toISOString(), note: 'Seized', cause: null }),
      tablet.make(visit.id, 'unit.outcome', { unitId: unit.id, outcome: 'seen', reason: '' }),
      tablet.make(visit.id, 'task.not_done', { taskId: coil ?? '', reason: 'No water' }),
      ...others.map((taskId) => tablet.make(visit.id, 'task.done', { taskId })),
      tablet.make(visit.id, 'signature.set', { nobodyThere: false, signedBy: 'Ilse', png: PNG }),
      tablet.make(visit.id, 'visit.close', { leftAt: at(30).toISOString(), taskIds }),
    ],
    at(60),
  );
  expect(reply.results.filter((r) => r.outcome === 'rejected')).toEqual([]);
  const found = await visitReport(db, visit.id);
  if (!found) throw new Error('no report');
  report = found;
  const next = visitRow(kitchen.id, person.id, at(7 * 24 * 60), 90, { note: 'Key at the bar', fixed: true });
  ({ id: nextId } = await db.visit.create({ data: next }));
  await db.visitTask.createMany({ data: tasks.slice(0, 2).map((t) => visitTaskRow(nextId, t)) });
});

describe('a visit that is done, as the office reads it', () => {
  it('says who was where, from when to when, and who signed', () => {
    const { kitchen, person, customer } = shop;
    expect(report).toMatchObject({
      status: 'done',
      startsAt: MORNING.getTime(),
      endsAt: at(60).getTime(),
      arrivedAt: at(2).getTime(),
      leftAt: at(30).getTime(),
      cancelReason: '',
      technician: { id: person.id, name: 'Tova Lind' },
      kitchen: { id: kitchen.id, name: kitchen.name, timeZone: 'America/Denver', customer: { id: customer.id, name: customer.name } },
      signature: { nobody: false, by: 'Ilse', png: PNG },
      notRevised: false,
    });
  });

  it('says everything of the unit, what was replaced included, each with who and when', () => {
    const [unit] = report.units;
    expect(report.units).toHaveLength(1);
    expect(unit).toMatchObject({
      name: 'Reach-in',
      archived: false,
      outcome: { outcome: 'seen' },
      readings: [
        {
          phase: 'before',
          by: 'Tova Lind',
          superseded: false,
          values: { airInK: 310, steadyMinutes: 20 },
          questioned: [{ question: 'Warm for a kitchen?', answer: 'Beside the fryer' }],
          estimate: { status: 'cannot_say' },
        },
      ],
      photos: [{ aspect: 'coil', phase: 'before', takenAt: at(12).getTime(), fileId: null }],
      followUps: [{ what: 'New gasket', state: 'asked' }],
      events: [{ kind: 'fan_replaced', note: 'Seized', cause: null }],
      parts: [{ what: 'Belt', quantity: 2 }],
      foodWarnings: [{ boxK: 284, toldTo: 'Chef', toldAt: at(14).getTime(), note: 'Fish' }],
    });
    expect(unit?.findings.map((f) => [f.aspect, f.grade, f.why, f.note, f.by, f.superseded])).toEqual([
      ['coil', 'furred', '', '', 'Tova Lind', true],
      ['coil', 'matted', '', 'Grease at the top', 'Tova Lind', false],
      ['ice', 'dry', '', '', 'Tova Lind', false],
      ['drain', null, 'Panel is riveted shut', '', 'Tova Lind', false],
    ]);
    const said = unit?.tasks.map((t) => [t.kind, t.outcome, t.reason]).toSorted();
    expect(said).toEqual([
      ['coil_cleaning', 'not_done', 'No water'],
      ['drain_inspection', 'done', ''],
      ['evaporator_inspection', 'done', ''],
    ]);
    expect(report.photos).toEqual([]);
  });

  it('lists every entry in the order it was made, with the tablet, and what the office is asked', () => {
    expect(report.entries).toHaveLength(17);
    expect(report.entries[0]).toMatchObject({ by: 'Tova Lind', device: 'Tablet', outcome: 'applied', note: '', correctedMs: 0 });
    expect(report.entries.every((e) => e.receivedAt === at(60).getTime() && e.madeAt < e.receivedAt)).toBe(true);
    expect(report.entries.map((e) => e.madeAt)).toEqual(report.entries.map((e) => e.madeAt).toSorted((a, b) => a - b));
  });

  it('is the same to the tablet: what stands, and no signature’s picture', async () => {
    const [held] = await visitsOnFile(database.db, [shop.visit.id], shop.person.id);
    expect(held).toMatchObject({
      status: 'done',
      nowWith: null,
      kitchen: { name: shop.kitchen.name, customer: shop.customer.name, utcOffsetMinutes: -420, altitudeM: 1609, energyPricePerKwh: 0.14 },
      entries: {
        arrivedAt: at(2).toISOString(),
        leftAt: at(30).toISOString(),
        readings: [{ phase: 'before', values: { airInK: 310, steadyMinutes: 20 } }],
        outcomes: [{ unitId: shop.unit.id, outcome: 'seen', reason: '' }],
        photos: [{ sha256: 'c'.repeat(64), fileId: null }],
        parts: [{ what: 'Belt', quantity: 2 }],
        foodWarnings: [{ toldTo: 'Chef', boxK: 284 }],
        events: [{ kind: 'fan_replaced', note: 'Seized' }],
        followUps: [{ what: 'New gasket', urgency: 'next' }],
        signature: { signedBy: 'Ilse', nobodyThere: false },
      },
    });
    expect(held?.entries.findings.map((f) => f.grade)).toEqual(['matted', 'dry', null]);
    expect(held?.units.map((u) => [u.name, u.openFollowUps.map((f) => f.what)])).toEqual([['Reach-in', ['New gasket']]]);
    expect(held?.tasks.map((t) => [t.kindKey, t.outcome])).toEqual([
      ['coil_cleaning', 'not_done'],
      ['drain_inspection', 'done'],
      ['evaporator_inspection', 'done'],
    ]);
    expect((await visitsOnFile(database.db, [shop.visit.id], idris.id))[0]?.nowWith).toBe('Tova Lind');
  });

  it('tells how long was spent at the unit from when things were written down', async () => {
    const times = await timeAtVisits(database.db, [shop.visit.id]);
    const spent = times.get(shop.visit.id)?.get(shop.unit.id);
    expect(times.size).toBe(1);
    expect(spent).toBeDefined();
    expect(JSON.stringify(spent)).not.toBe(JSON.stringify((await timeAtVisits(database.db, [nextId])).get(nextId)?.get(shop.unit.id)));
  });

  it('is not on file for whoever asks for another', async () => {
    expect(await visitReport(database.db, shop.kitchen.id)).toBeNull();
  });
});

describe('a visit that stands', () => {
  it('is on the board of its span and of its technician, with what the board says of it', async () => {
    const on = (from: Date, to: Date, who?: Parameters<typeof visitsBetween>[3]) => visitsBetween(database.db, from, to, who);
    const start = at(7 * 24 * 60);
    const [seen, ...more] = await on(start, new Date(start.getTime() + HOUR));
    expect(more).toEqual([]);
    expect(seen).toMatchObject({
      id: nextId, status: 'booked', technician: 'Tova Lind', startsAt: start.getTime(), endsAt: start.getTime() + 1.5 * HOUR, fixed: true,
      emergency: false, note: 'Key at the bar', kitchen: shop.kitchen.name, customer: shop.customer.name, tasks: 2, units: 1, serviceHours: ANY_TIME,
    }); // prettier-ignore
    // A span that only touches it holds nothing of it.
    expect(await on(new Date(start.getTime() - HOUR), start)).toEqual([]);
    expect(await on(new Date(start.getTime() + 1.5 * HOUR), new Date(start.getTime() + 3 * HOUR))).toEqual([]);
    expect(await on(start, new Date(start.getTime() + HOUR), { in: [idris.id] })).toEqual([]);
    expect(await on(start, new Date(start.getTime() + HOUR), { notIn: [idris.id] })).toHaveLength(1);
  });

  it('is next at its kitchen, in the way of its technician while it lasts, and of nobody once cancelled', async () => {
    const { db } = database;
    const start = at(7 * 24 * 60);
    const later = (hours: number) => new Date(start.getTime() + hours * HOUR);
    expect(await nextVisit(db, shop.kitchen.id, at(60))).toEqual({ id: nextId, startsAt: start.getTime(), technician: 'Tova Lind' });
    expect(await nextVisit(db, shop.kitchen.id, later(0.1))).toBeNull();
    const inTheWay = (from: Date, to: Date, not?: string) => visitInTheWay(db, shop.person.id, from, to, not);
    expect(await inTheWay(later(-1), later(0.5))).toMatchObject({ id: nextId, kitchen: { name: shop.kitchen.name } });
    for (const free of [await inTheWay(later(-1), start), await inTheWay(later(1.5), later(2)), await inTheWay(start, later(1), nextId)])
      expect(free).toBeNull();
    await db.visit.update({ where: { id: nextId }, data: { status: 'cancelled', cancelReason: 'Closed that day' } });
    expect(await inTheWay(start, later(1))).toBeNull();
    expect(await nextVisit(db, shop.kitchen.id, at(60))).toBeNull();
    await db.visit.update({ where: { id: nextId }, data: { status: 'booked', cancelReason: '' } });
  });

  it('has its page: whom to ring, what is to be done, and its history with names, newest first', async () => {
    const { db } = database;
    const ctx = { db, actor: { userId: idris.id }, now: at(60), baseUrl: 'http://localhost' };
    const before = await visitToManage(db, nextId);
    // The kitchen names nobody of its own: the customer's own contact is rung.
    expect(before).toMatchObject({
      version: 1, status: 'booked', note: 'Key at the bar', fixed: true, asksFor: null, customerReply: null,
      kitchen: { contact: 'Ilse Braun', phone: '555 010 7788', email: 'ilse@example.com', customer: shop.customer.name },
      technician: { id: shop.person.id, name: 'Tova Lind' },
      events: [],
    }); // prettier-ignore
    expect(before?.tasks.map((t) => [t.unit, t.outcome, t.reason])).toEqual([
      ['Reach-in', 'planned', ''],
      ['Reach-in', 'planned', ''],
    ]);
    const day = localDate('2026-12-03');
    const to = {
      visitId: nextId,
      version: 1,
      technicianId: shop.person.id,
      date: day,
      from: '10:00',
      minutes: 45,
      reason: 'Chef asked',
      anyway: true,
    };
    await moveVisit(ctx, to);
    const after = await visitToManage(db, nextId);
    expect(after?.events).toMatchObject([
      {
        kind: 'moved', reason: 'Chef asked', by: 'Idris Fenn', at: at(60).getTime(),
        movedFrom: { startsAt: before?.startsAt, endsAt: before?.endsAt, technicianId: shop.person.id },
      },
    ]); // prettier-ignore
    await db.kitchen.update({
      where: { id: shop.kitchen.id },
      data: { contactName: 'Chef', contactPhone: '1', contactEmail: 'chef@example.com' },
    });
    expect((await visitToManage(db, nextId))?.kitchen).toMatchObject({ contact: 'Chef', phone: '1', email: 'chef@example.com' });
    expect(await visitToManage(db, shop.kitchen.id)).toBeNull();
  });

  it('holds its tasks: they are shown with it at the kitchen, and what stands on none is asked for by the week', async () => {
    const { db } = database;
    const tasks = await kitchenTasks(db, shop.kitchen.id);
    expect(tasks.filter((t) => t.onVisit?.id === nextId)).toHaveLength(2);
    expect(tasks.filter((t) => t.onVisit === null)).toHaveLength(1);
    expect(tasks.map((t) => t.dueOn)).toEqual(tasks.map((t) => t.dueOn).toSorted());
    const other = await haveOneUnit(db, { kitchen: { name: 'Later kitchen' }, tasks: [{ dueOn: new Date('2026-06-01') }] });
    const old = await haveOneUnit(db, { kitchen: { name: 'Archived kitchen', archivedAt: MORNING }, tasks: [{}] });
    const { kitchens, total } = await unbookedKitchens(db, localDate('2027-12-31'), 1);
    // The longest overdue first, no more than asked for, and how many there are.
    expect([kitchens.length, total]).toEqual([1, 2]);
    const all = await unbookedKitchens(db, localDate('2027-12-31'), 10);
    expect(all.kitchens.map((k) => k.soonest)).toEqual(all.kitchens.map((k) => k.soonest).toSorted());
    expect(all.kitchens.find((k) => k.kitchenId === other.kitchen.id)).toMatchObject({
      kitchen: 'Later kitchen',
      tasks: 1,
      soonest: '2026-06-01',
    });
    expect(all.kitchens.map((k) => k.kitchenId)).not.toContain(old.kitchen.id);
    expect((await unbookedKitchens(db, localDate('2026-06-01'), 10)).kitchens.map((k) => k.kitchenId)).not.toContain(other.kitchen.id);
    expect(await unbookedKitchens(db, localDate('2020-01-01'), 10)).toEqual({ kitchens: [], total: 0 });
    // Kitchens alike in date and name come in one order always.
    const alike = [];
    for (const n of [1, 2, 3, 4])
      alike.push(
        await haveOneUnit(db, {
          person: { email: `alike${n}@example.com` },
          kitchen: { name: 'Alike' },
          tasks: [{ dueOn: new Date('2020-02-01') }],
        }),
      );
    const ids = alike.map((a) => a.kitchen.id).toSorted();
    expect((await unbookedKitchens(db, localDate('2020-03-01'), 3)).kitchens.map((k) => k.kitchenId)).toEqual(ids.slice(0, 3));
  });

  it('that nobody closed is told once its time is over; a day’s open visits are told by technician and by kitchen', async () => {
    const { db } = database;
    const moved = await db.visit.findUniqueOrThrow({ where: { id: nextId } });
    expect(await pastNotClosed(db, new Date(moved.endsAt.getTime() - 1), 5)).toEqual({ visits: [], total: 0 });
    expect(await pastNotClosed(db, moved.endsAt, 5)).toMatchObject({
      total: 1,
      visits: [{ id: nextId, started: false, technician: 'Tova Lind', kitchen: shop.kitchen.name, customer: shop.customer.name }],
    });
    const on = (day: LocalDate, whose: Parameters<typeof openVisitsOn>[1]) =>
      openVisitsOn(db, whose, day, addDays(day, 1), 'America/Denver');
    const day = todayIn('America/Denver', moved.startsAt.getTime());
    for (const whose of [{ technicianId: shop.person.id }, { kitchenId: shop.kitchen.id }]) {
      expect((await on(day, whose)).visits.map((v) => v.id)).toEqual([nextId]);
      expect((await on(addDays(day, 1), whose)).total).toBe(0);
      // The visit of the morning is done: nobody has to be told of it.
      expect((await on(localDate('2026-11-25'), whose)).total).toBe(0);
    }
    await db.visit.update({ where: { id: nextId }, data: { status: 'started', arrivedAt: moved.startsAt } });
    expect((await pastNotClosed(db, moved.endsAt, 5)).visits).toMatchObject([{ started: true }]);
  });
});
