import { randomUUID } from 'node:crypto';
import { beforeEach, describe, expect, it } from 'vitest';
import type { RoundReply } from '@/lib/core/tablet';
import { readRound } from '@/lib/features/tablet/verbs/round';
import { useDatabase } from '../../support/database';
import { haveOneUnit, personRow, visitRow, visitTaskRow } from '../../support/factories';
import { finding, haveVisit, MORNING, Tablet } from './a-tablet';

const database = useDatabase();
const HOUR = 3_600_000;
const hours = (n: number) => new Date(MORNING.getTime() + n * HOUR);
let shop: Awaited<ReturnType<typeof haveOneUnit>>;
let tablet: Tablet;

beforeEach(async () => {
  shop = await haveOneUnit(database.db);
  tablet = new Tablet(database.db, shop.person);
});
const visit = async (startsAt: Date, over: Parameters<typeof visitRow>[4] = {}, who = shop.person.id) =>
  (await database.db.visit.create({ data: visitRow(shop.kitchen.id, who, startsAt, 30, over) })).id;
const cancelled = { status: 'cancelled' as const, cancelReason: 'Closed' };

describe('a round', () => {
  it('reaches three days back and eight ahead, and to whatever was left open before, in the order of the day', async () => {
    const day = 24;
    const kept = [
      await visit(hours(-30 * day)),
      await visit(hours(-3 * day), { status: 'done', closedAt: MORNING }),
      await visit(hours(-1), cancelled),
      await visit(MORNING),
      await visit(hours(8 * day - 1)),
    ];
    await visit(hours(-3 * day - 1), { status: 'done', closedAt: MORNING });
    await visit(hours(-4 * day), cancelled);
    await visit(hours(8 * day));
    await visit(hours(1), {}, (await database.db.user.create({ data: personRow() })).id);
    const { order, changed, serverTime, lastSeq } = await tablet.refresh();
    expect(order).toEqual(kept);
    expect(changed.map((v) => v.id)).toEqual(kept);
    expect([serverTime, lastSeq]).toEqual([MORNING.toISOString(), 0]);
  });

  it('brings only what changed since, each visit by itself', async () => {
    const [one, two] = [await visit(MORNING), await visit(hours(2))];
    const first = await tablet.refresh();
    expect((await tablet.refresh(first.cursor)).changed).toEqual([]);
    await database.db.visit.update({ where: { id: two }, data: { note: 'Key at the bar' } });
    const second = await tablet.refresh(first.cursor);
    expect(second.changed.map((v) => [v.id, v.note])).toEqual([[two, 'Key at the bar']]);
    expect(second.order).toEqual([one, two]);
    expect((await tablet.refresh(second.cursor)).changed).toEqual([]);
    expect((await tablet.refresh('nonsense.of.another')).changed).toHaveLength(2);
  });

  it('keeps a visit that was given away or cancelled while it lasts, and lets others’ never seen alone', async () => {
    const [given, other] = [await visit(MORNING), await database.db.user.create({ data: personRow({ name: 'June Castell' }) })];
    await tablet.refresh();
    await database.db.visit.update({ where: { id: given }, data: { technicianId: other.id } });
    expect((await tablet.refresh()).changed).toMatchObject([{ id: given, nowWith: 'June Castell' }]);
    const hers = new Tablet(database.db, other);
    expect((await hers.refresh()).changed).toMatchObject([{ id: given, nowWith: null }]);
    expect((await new Tablet(database.db, shop.person).refresh()).order).toEqual([]);
    // Four days on, it leaves the tablet that no longer has it, and stays with her who has: it is still open.
    expect((await tablet.refresh('', hours(96))).order).toEqual([]);
    expect((await hers.refresh('', hours(96))).order).toEqual([given]);
  });

  it('keeps what has been begun in any way, however far off the office moves it', async () => {
    const { db } = database;
    const { unit, tasks } = shop;
    const ways: ((visitId: string) => Promise<unknown>)[] = [
      (id) => db.visit.update({ where: { id }, data: { arrivedAt: MORNING } }),
      (visitId) => db.finding.create({ data: { visitId, unitId: unit.id, aspect: 'coil', grade: 'bare', at: MORNING } }),
      (visitId) => db.reading.create({ data: { visitId, unitId: unit.id, phase: 'before', airInK: 305, at: MORNING } }),
      (visitId) => db.unitVisit.create({ data: { id: randomUUID(), visitId, unitId: unit.id, outcome: 'seen', at: MORNING } }),
      (visitId) =>
        db.visitTask.create({ data: visitTaskRow(visitId, tasks[1]!, { outcome: 'not_done', reason: 'No key', answeredAt: MORNING }) }),
      (visitId) => db.photo.create({ data: { id: randomUUID(), visitId, takenAt: MORNING, sha256: 'a'.repeat(64) } }),
      (visitId) => db.partUsed.create({ data: { visitId, what: 'Belt', quantity: 1, at: MORNING } }),
    ];
    for (const [i, begin] of ways.entries()) {
      const id = await visit(hours(i));
      await tablet.refresh();
      await begin(id);
      await db.visit.update({ where: { id }, data: { startsAt: hours(20 * 24 + i), endsAt: hours(20 * 24 + i + 0.5) } });
    }
    const untouched = await visit(hours(10));
    await tablet.refresh();
    await db.visit.update({ where: { id: untouched }, data: { startsAt: hours(21 * 24), endsAt: hours(21 * 24 + 1) } });
    const { order } = await tablet.refresh();
    expect(order).toHaveLength(ways.length);
    expect(order).not.toContain(untouched);
    expect((await new Tablet(database.db, shop.person).refresh()).order).toEqual([]);
  });

  it('says who it is for, in whose measures, with the shop’s money, and since when there is a backup', async () => {
    const { db } = database;
    await db.user.update({
      where: { id: shop.person.id },
      data: { name: 'Tova Lind', gaugeGrade: '2A', gaugeSpanPa: 3.4e6, sharesArrivals: true },
    });
    await db.shopSettings.update({ where: { id: 1 }, data: { currency: 'EUR', backedUpAt: hours(-2) } });
    const { me, backedUpAt } = await tablet.refresh();
    expect(me).toMatchObject({
      ...{ userId: shop.person.id, name: 'Tova Lind', role: 'technician', gaugeGrade: '2A', gaugeSpanPa: 3.4e6, currency: 'EUR' },
      ...{ sharesArrivals: true, certificates: [], cylinders: [] },
    });
    expect(backedUpAt).toBe(hours(-2).toISOString());
    await db.shopSettings.update({ where: { id: 1 }, data: { currency: 'USD', backedUpAt: null } });
    expect((await tablet.refresh()).backedUpAt).toBeNull();
    // Who does no visits is not asked whether arrivals may be told.
    const desk = new Tablet(db, { ...(await db.user.create({ data: personRow({ role: 'dispatcher' }) })), role: 'dispatcher' });
    expect('sharesArrivals' in (await desk.refresh()).me).toBe(false);
  });

  it('writes down which tablet it is, as it calls itself, when it was last heard of, and what it was given', async () => {
    const { db } = database;
    const id = await visit(MORNING);
    const ask = async (name: string, appVersion: string, now: Date): Promise<RoundReply> =>
      JSON.parse(await readRound({ db, actor: tablet.actor, now }, { id: tablet.id, name, appVersion }, ''));
    await ask('Van 1', '1', MORNING);
    await ask('Van 2', '2', hours(1));
    expect(await db.device.findUniqueOrThrow({ where: { id: tablet.id } })).toMatchObject({
      ...{ userId: shop.person.id, name: 'Van 2', appVersion: '2', lastSeenAt: hours(1) },
    });
    expect(await db.deviceVisit.findMany({ where: { deviceId: tablet.id } })).toMatchObject([{ visitId: id, givenAt: MORNING }]);
  });
});

describe('whose tablet it is', () => {
  const theirs = 'What is on this tablet was written by someone else. They must sign in to send it, or hand it to the office as a file.';

  it('is said in words to whoever else signs in on it, and to an office that names nobody on file', async () => {
    const { db } = database;
    const made = await haveVisit(db);
    const first = new Tablet(db, made.person);
    await first.refresh();
    const stranger = new Tablet(db, await db.user.create({ data: personRow() }));
    const device = { id: first.id, name: 'Tablet', appVersion: 'test' };
    for (const holder of [made.person.id, undefined])
      await expect(readRound({ db, actor: stranger.actor, now: MORNING }, { ...device, holder }, '')).rejects.toMatchObject({
        ...{ code: 'not_allowed', message: theirs },
      });
    const entry = first.make(made.visit.id, 'finding.set', finding(made.unit.id, 'coil', 'bare'));
    await expect(first.send([entry], hours(1), stranger.actor)).rejects.toMatchObject({ code: 'not_allowed', message: theirs });
    const desk = new Tablet(db, { ...(await db.user.create({ data: personRow({ role: 'dispatcher' }) })), role: 'dispatcher' });
    const unknown = new Tablet(db, { id: randomUUID(), name: 'Nobody' });
    await expect(unknown.send([], hours(1), desk.actor)).rejects.toMatchObject({
      ...{ code: 'not_allowed', message: 'Whoever wrote this is not on file here.' },
    });
    expect(await db.finding.count({ where: { visitId: made.visit.id } })).toBe(0);
  });
});
