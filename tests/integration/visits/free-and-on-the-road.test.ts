import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { travelMinutes } from '@/lib/core/planning';
import { askedOtherTime } from '@/lib/features/visits/reads/asked-other-time';
import { drivesBefore } from '@/lib/features/visits/reads/drives-before';
import { freeSlotsForVisit, freeTimes } from '@/lib/features/visits/reads/free-slots';
import { bookableTechnicians, bookingKitchen, visitsBetween } from '@/lib/features/visits/reads/visits';
import { useDatabase } from '../../support/database';
import { haveOneUnit, kitchenRow, personRow, visitRow, visitTaskRow, weeklyHours } from '../../support/factories';

const database = useDatabase();
const HOUR = 3_600_000;
// A Monday, 08:00 in Denver.
const now = new Date('2026-11-30T15:00:00Z');
const at = (hour: number, day = 0) => new Date(now.getTime() + (hour - 8) * HOUR + day * 24 * HOUR);
const SHIFT = weeklyHours('08:00', '16:00');

type Made = Awaited<ReturnType<typeof haveOneUnit>>;
let here: Made;
let near: { id: string; lat: number; lng: number };
let far: { id: string; lat: number; lng: number };
let nowhere: { id: string };
let shop: { lat: number; lng: number };
let circuity: number;
let speedKmh: number;
const drive = (a: { lat: number; lng: number }, b: { lat: number; lng: number }) => travelMinutes(a, b, { circuity, speedKmh });

beforeAll(async () => {
  const { db } = database;
  here = await haveOneUnit(db, { kitchen: { name: 'Here', serviceHours: SHIFT, lat: 39.74, lng: -104.98 }, person: { shifts: SHIFT } });
  const place = async (name: string, lat: number | null) =>
    db.kitchen.create({ data: kitchenRow(here.customer.id, { name, lat, lng: lat === null ? null : -104.98 }) });
  const of = (k: { id: string; lat: number | null; lng: number | null }) => ({ id: k.id, lat: k.lat ?? NaN, lng: k.lng ?? NaN });
  near = of(await place('Near', 39.79));
  far = of(await place('Far', 40.1));
  nowhere = await place('Nowhere', null);
  const row = await db.shopSettings.update({ where: { id: 1 }, data: { lat: 39.6, lng: -104.98 } });
  shop = { lat: row.lat ?? NaN, lng: row.lng ?? NaN };
  ({ circuity, speedKmh } = row);
});
beforeEach(async () => {
  await database.db.visit.deleteMany();
});
const booked = (kitchenId: string, startsAt: Date, minutes = 60, who = here.person.id, over = {}) =>
  database.db.visit.create({ data: visitRow(kitchenId, who, startsAt, minutes, over) });

describe('minutes on the road to a visit', () => {
  const drives = async () => drivesBefore(database.db, await visitsBetween(database.db, at(0), at(24, 3)));

  it('are from the stop before on the same round, else from home, else from the shop; unknown without a place', async () => {
    const { db } = database;
    const home = { lat: 39.9, lng: -104.98 };
    const june = await db.user.create({ data: personRow({ homeLat: home.lat, homeLng: home.lng }) });
    const first = await booked(here.kitchen.id, at(9));
    const second = await booked(far.id, at(11));
    const herFirst = await booked(near.id, at(10.5), 60, june.id);
    const lost = await booked(nowhere.id, at(13));
    const afterLost = await booked(near.id, at(15));
    const nextDay = await booked(near.id, at(9, 1));
    const found = await drives();
    const from = { lat: here.kitchen.lat ?? NaN, lng: here.kitchen.lng ?? NaN };
    expect(found.get(first.id)).toBe(drive(shop, from));
    expect(found.get(second.id)).toBe(drive(from, far));
    expect(found.get(herFirst.id)).toBe(drive(home, near));
    expect([found.get(lost.id), found.get(afterLost.id)]).toEqual([null, null]);
    // A night lies between: the round begins anew.
    expect(found.get(nextDay.id)).toBe(drive(shop, near));
    expect(new Set([drive(shop, from), drive(from, far), drive(home, near), drive(shop, near)]).size).toBe(4);
  });

  it('of visits that touch are counted from the one before, and never from one that is still to come', async () => {
    const late = await booked(here.kitchen.id, at(10));
    const early = await booked(far.id, at(9));
    const found = await drives();
    expect(found.get(early.id)).toBe(drive(shop, far));
    expect(found.get(late.id)).toBe(drive(far, { lat: here.kitchen.lat ?? NaN, lng: here.kitchen.lng ?? NaN }));
  });
});

describe('free times', () => {
  const work = (over = {}) => ({ kitchenId: here.kitchen.id, minutes: 60, needs: [], ...over });
  const times = (over = {}, within = {}) => freeTimes(database.db, work(over), now, within);
  const starts = async (over = {}, within = {}) => (await times(over, within)).map((s) => s.start);

  beforeEach(async () => {
    await database.db.user.updateMany({ where: { id: { not: here.person.id } }, data: { active: false } });
    await database.db.user.update({ where: { id: here.person.id }, data: { skills: ['flammable'] } });
  });

  it('are a dozen, on the half hour, from half a day ahead and within two weeks', async () => {
    const found = await starts();
    expect(found).toHaveLength(12);
    // Twelve hours from eight in the morning is evening: the next morning is the first.
    expect(found[0]).toBe(at(8, 1).getTime());
    expect(found[1]).toBe(at(8.5, 1).getTime());
    const all = await starts({}, { limit: 5000 });
    // Tuesday to Friday and the week after; the fourteenth day is no more offered. Fifteen beginnings a day.
    expect(all).toHaveLength(9 * 15);
    expect(Math.max(...all)).toBe(at(15, 11).getTime());
    expect((await starts({}, { noticeMs: 0, limit: 1 }))[0]).toBe(now.getTime());
    expect(await freeTimes(database.db, work({ kitchenId: here.unit.id }), now)).toEqual([]);
  });

  it('leave out what the technician holds, with the way to and from it', async () => {
    await booked(far.id, at(10, 1));
    const way = drive({ lat: 39.74, lng: -104.98 }, far) ?? NaN;
    expect(way).toBeGreaterThan(30);
    const day = (await starts({}, { limit: 200 })).filter((s) => s < at(24, 1).getTime());
    const [from, until] = [at(10, 1).getTime() - way * 60_000, at(11, 1).getTime() + way * 60_000];
    expect(day).toEqual(Array.from({ length: 15 }, (_, i) => at(8 + i / 2, 1).getTime()).filter((s) => s + HOUR <= from || s >= until));
    await database.db.visit.updateMany({ data: { status: 'cancelled', cancelReason: 'Closed' } });
    expect((await starts({}, { limit: 15 })).at(-1)).toBe(at(15, 1).getTime());
  });

  it('count twenty minutes of road to a kitchen that is on no map', async () => {
    await booked(nowhere.id, at(10, 1), 30);
    const day = (await starts({}, { limit: 200 })).filter((s) => s < at(24, 1).getTime());
    // 09:00 to 10:00 leaves no way there; 10:30 no way back, 11:00 does.
    expect(day.slice(0, 3)).toEqual([at(8, 1).getTime(), at(8.5, 1).getTime(), at(11, 1).getTime()]);
  });

  it('say what they add to the day’s road', async () => {
    const { lat, lng } = { lat: 39.74, lng: -104.98 };
    await booked(near.id, at(8, 1), 60);
    const found = await times({}, { limit: 200 });
    expect(found.find((s) => s.start === at(12, 1).getTime())?.detourMinutes).toBe(drive(near, { lat, lng }));
    expect(found.find((s) => s.start === at(12, 2).getTime())?.detourMinutes).toBe(0);
  });

  it('are of those who may do it, whoever has the visit first', async () => {
    const { db } = database;
    const june = await db.user.create({ data: personRow({ name: 'A first name', skills: ['roof'], shifts: SHIFT }) });
    const who = async (over = {}) => (await times(over, { limit: 1 }))[0]?.technicianId;
    expect(await who()).toBe(june.id);
    expect(await who({ technicianId: here.person.id })).toBe(here.person.id);
    expect(await who({ needs: ['flammable'] })).toBe(here.person.id);
    expect(await who({ needs: ['flammable', 'roof'] })).toBeUndefined();
  });

  it('for a visit that stands are all but its own, for as long as it takes and by whom it needs', async () => {
    const { db } = database;
    const visit = await booked(here.kitchen.id, at(9, 1), 90);
    await db.visitTask.create({ data: visitTaskRow(visit.id, here.tasks[1]!) });
    const own = (within = {}) => freeSlotsForVisit(db, visit.id, now, within);
    const found = await own();
    expect(found).toHaveLength(12);
    expect(found.map((s) => s.start)).not.toContain(visit.startsAt.getTime());
    // It is in its own way neither before nor after.
    expect(found.slice(0, 3).map((s) => s.start)).toEqual([at(8, 1), at(8.5, 1), at(9.5, 1)].map((d) => d.getTime()));
    expect(found.every((s) => s.end - s.start === 1.5 * HOUR && s.technicianId === here.person.id)).toBe(true);
    expect(await own({ limit: 2 })).toHaveLength(2);
    await db.unit.update({ where: { id: here.unit.id }, data: { roofWork: true } });
    expect(await own()).toEqual([]);
    await db.unit.update({ where: { id: here.unit.id }, data: { roofWork: false } });
    expect(await freeSlotsForVisit(db, here.unit.id, now)).toEqual([]);
  });
});

it('kitchens that ask for another time are listed, the nearest first, until it is over or answered', async () => {
  const asks = { customerReply: 'other_time', replyNote: 'Later' } as const;
  const second = await booked(here.kitchen.id, at(9, 2), 60, here.person.id, { ...asks, replyStartsAt: at(14, 2) });
  const first = await booked(near.id, at(9, 1), 60, here.person.id, asks);
  await booked(here.kitchen.id, at(6), 60, here.person.id, asks);
  await booked(here.kitchen.id, at(12, 2), 60, here.person.id, { customerReply: 'confirmed' });
  const cancelled = { ...asks, status: 'cancelled' as const, cancelReason: 'Closed' };
  await booked(here.kitchen.id, at(9, 3), 60, here.person.id, cancelled);
  const common = { customer: here.customer.name, timeZone: 'America/Denver', note: 'Later' };
  expect(await askedOtherTime(database.db, now)).toEqual([
    { id: first.id, kitchen: 'Near', startsAt: at(9, 1).getTime(), asksFor: null, ...common },
    { id: second.id, kitchen: 'Here', startsAt: at(9, 2).getTime(), asksFor: at(14, 2).getTime(), ...common },
  ]);
});

it('booking knows a kitchen’s hours and closed days, and who does visits, by name, with their days off', async () => {
  const { db } = database;
  await db.user.updateMany({ data: { active: false } });
  const days = { startsOn: new Date('2026-12-24'), endsOn: new Date('2026-12-27'), reason: 'Holidays' };
  const onFile = { startsOn: '2026-12-24', endsOn: '2026-12-27', reason: 'Holidays' };
  const add = (name: string, over = {}) =>
    db.user.create({ data: { ...personRow({ name, shifts: SHIFT, ...over }), timeOff: { create: days } } });
  await add('Zoe', { skills: [] });
  await add('Ana');
  await add('Desk', { role: 'dispatcher' });
  await db.kitchen.update({ where: { id: here.kitchen.id }, data: { accessNotes: 'Code 17', blackouts: { create: days } } });
  expect(await bookableTechnicians(db)).toMatchObject([
    { name: 'Ana', skills: ['flammable', 'roof'], shifts: SHIFT, timeOff: [onFile] },
    { name: 'Zoe', skills: [], timeOff: [onFile] },
  ]);
  expect(await bookingKitchen(db, here.kitchen.id)).toMatchObject({
    ...{ id: here.kitchen.id, name: 'Here', customer: here.customer.name, timeZone: 'America/Denver', accessNotes: 'Code 17' },
    ...{ serviceHours: SHIFT, blackouts: [onFile] },
  });
  expect(await bookingKitchen(db, here.unit.id)).toBeNull();
});
