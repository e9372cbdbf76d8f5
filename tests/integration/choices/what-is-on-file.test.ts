import { beforeEach, describe, expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import type { Grade } from '@/lib/core/findings/grades';
import { choicesOf, lastFigures, shopCosts, toLookAtAgain, unitFacts } from '@/lib/features/choices/reads/unit-facts';
import { decideUnit, lookAgain } from '@/lib/features/choices/verbs/decide-unit';
import { useDatabase } from '@/tests/support/database';
import { findingRow, haveOneUnit, jobRow, unitRow, visitRow, visitTaskRow } from '@/tests/support/factories';

const database = useDatabase();
const now = new Date('2026-11-27T17:00:00Z');
const DAY = 86_400_000;
const ago = (days: number, hours = 0) => new Date(now.getTime() - days * DAY - hours * 3_600_000);
type Have = Awaited<ReturnType<typeof haveOneUnit>>;
let have: Have;
const facts = async (unitId = have.unit.id) => {
  const found = await unitFacts(database.db, unitId, now);
  if (!found) throw new Error('not in service');
  return found;
};

beforeEach(async () => {
  const { db } = database;
  // Each shop stands alone: the fleet is all units in service.
  await db.unit.updateMany({ data: { archivedAt: ago(400), archivedWhy: 'Another test' } });
  have = await haveOneUnit(db, { unit: { createdAt: ago(730) } });
});

/** A coil cleaned so many days ago, met and left as told, with what was done beside it and the minutes that were spent. */
async function cleaned(days: number, { minutes = 40, coil = 'matted' as Grade, drain = false } = {}) {
  const { kitchen, unit, person, tasks } = have;
  const at = ago(days);
  const left = new Date(at.getTime() + minutes * 60_000);
  return database.db.$transaction(async (tx) => {
    const visit = await tx.visit.create({
      data: visitRow(kitchen.id, person.id, at, 120, { status: 'done', arrivedAt: at, leftAt: left, closedAt: left }),
    });
    const seen = (aspect: 'coil' | 'ice' | 'drain', grade: Grade, when: Date, phase: 'found' | 'left' = 'found') =>
      tx.finding.create({ data: findingRow(visit.id, unit.id, aspect, grade, when, { phase }) });
    await seen('coil', coil, new Date(at.getTime() + 300_000));
    await seen('ice', 'dry', new Date(at.getTime() + 360_000));
    await seen('drain', 'runs', new Date(at.getTime() + 420_000));
    await seen('coil', 'bare', left, 'left');
    for (const task of tasks.filter((t) => t.kindKey === 'coil_cleaning' || (drain && t.kindKey === 'drain_inspection')))
      await tx.visitTask.create({ data: visitTaskRow(visit.id, task, { outcome: 'done', open: false, answeredAt: left }) });
    return visit.id;
  });
}

describe('what happened to a unit', () => {
  it('is counted for three years at most, and over a quarter of one at least', async () => {
    const { db } = database;
    const years = async () => (await facts()).cleanings.years;
    expect(await years()).toBeCloseTo(2, 6);
    await db.unit.update({ where: { id: have.unit.id }, data: { createdAt: ago(3000) } });
    expect(await years()).toBeCloseTo(3, 6);
    await db.unit.update({ where: { id: have.unit.id }, data: { createdAt: ago(10) } });
    expect(await years()).toBe(0.25);
    expect(await unitFacts(db, have.kitchen.id, now)).toBeNull();
    await db.unit.update({ where: { id: have.unit.id }, data: { archivedAt: now, archivedWhy: 'Sold' } });
    expect(await unitFacts(db, have.unit.id, now)).toBeNull();
  });

  it('counts a day of tripping, a compressor gone and food too warm, each unit’s own, within those years', async () => {
    const { db } = database;
    const other = await db.unit.create({ data: unitRow(have.kitchen.id, { name: 'Other', createdAt: ago(365) }) });
    const visit = await db.visit.create({
      data: visitRow(have.kitchen.id, have.person.id, ago(50), 60, { status: 'started', arrivedAt: ago(50) }),
    });
    const event = (kind: 'high_pressure_trip' | 'compressor_replaced' | 'fan_replaced', at: Date, unitId = have.unit.id) =>
      db.unitEvent.create({ data: { unitId, kind, at } });
    const warm = (toldAt: Date, unitId = have.unit.id) =>
      db.foodWarning.create({ data: { visitId: visit.id, unitId, boxK: 285, toldTo: 'Chef', toldAt } });
    await event('high_pressure_trip', ago(10));
    await warm(ago(10, 2));
    await warm(ago(20));
    await event('compressor_replaced', ago(30));
    await event('fan_replaced', ago(40));
    await event('high_pressure_trip', ago(1000));
    await event('high_pressure_trip', ago(-1));
    // On the same day as the first, but another unit's.
    await event('high_pressure_trip', ago(10), other.id);
    expect((await facts()).failures.times).toBe(3);
    expect((await facts(other.id)).failures.times).toBe(1);
    const { failures } = (await facts()).fleet;
    expect(failures.times).toBe(5);
    expect(failures.years).toBeCloseTo(3, 6);
    // What was taken out of use counts neither by its days nor by its years.
    await db.unit.update({ where: { id: other.id }, data: { archivedAt: now, archivedWhy: 'Sold' } });
    const after = (await facts()).fleet.failures;
    expect([after.times, after.years]).toEqual([4, expect.closeTo(2, 6)]);
  });

  it('counts who rang about it, not what the office thought of, and of the shop what rang about any unit in service', async () => {
    const { db } = database;
    const other = await db.unit.create({ data: unitRow(have.kitchen.id, { name: 'Other', createdAt: ago(10) }) });
    const job = (unit: { id: string; kitchenId: string }, over: object) =>
      db.job.create({ data: jobRow(unit, { source: 'call', ...over }) });
    await job(have.unit, { createdAt: ago(5) });
    await job(have.unit, { createdAt: ago(5), source: 'office' });
    await job(have.unit, { createdAt: ago(800) });
    await job(other, { createdAt: ago(6) });
    await db.job.create({ data: { kitchenId: have.kitchen.id, source: 'call', what: 'Smell', createdAt: ago(7), events: { create: { kind: 'opened', to: 'asked' } } } }); // prettier-ignore
    const found = await facts();
    expect(found.callOuts).toEqual({ times: 1, years: expect.closeTo(2, 6) });
    // From before it was on file it is the shop's, not the unit's; without a unit it is neither's.
    expect(found.fleet.callOuts.times).toBe(3);
    await db.unit.update({ where: { id: other.id }, data: { archivedAt: now, archivedWhy: 'Sold' } });
    expect((await facts()).fleet.callOuts.times).toBe(2);
    // A shop of a week has a year to stand on, or its first call would be fifty a year.
    await db.unit.update({ where: { id: have.unit.id }, data: { createdAt: ago(7) } });
    expect((await facts()).fleet.callOuts.years).toBe(1);
  });

  it('adds up what was charged to make good a leak, a year', async () => {
    const { db } = database;
    const certificate = await db.certificate.create({ data: { userId: have.person.id, kind: 'us_608_universal', number: 'U-17' } });
    const cylinder = await db.cylinder.create({
      data: { label: 'C-1', refrigerant: have.unit.refrigerant, contents: 'new', tareKg: 5, firstKg: 8, mostKg: 11 },
    });
    const charged = (kg: number, at: Date) =>
      db.cylinderEntry.create({
        data: {
          cylinderId: cylinder.id,
          way: 'charged',
          kg: -kg,
          at,
          unitId: have.unit.id,
          byUserId: have.person.id,
          certificateId: certificate.id,
        },
      });
    await charged(0.2, ago(300));
    await charged(0.1, ago(20));
    expect((await facts()).leakKgPerYear).toBeCloseTo(0.15, 6);
    await db.unit.update({ where: { id: have.unit.id }, data: { createdAt: ago(73) } });
    // Counted since it is on file: within a quarter of a year only the last.
    expect((await facts()).leakKgPerYear).toBeCloseTo(0.4, 6);
  });
});

describe('the minutes of a cleaning', () => {
  it('are the mean of visits that cleaned it, less what else was planned there, and of none with work on a job or too few', async () => {
    const { db } = database;
    expect((await facts()).cleaningMinutes).toBeNull();
    await cleaned(300, { minutes: 40 });
    expect((await facts()).cleaningMinutes).toBeNull();
    const second = await cleaned(200, { minutes: 60 });
    expect((await facts()).cleaningMinutes).toMatchObject({ value: 50, cleanings: 2 });
    // A drain looked at takes its own minutes.
    const { minutes } = await db.taskKind.findUniqueOrThrow({ where: { key: 'drain_inspection' } });
    await cleaned(100, { minutes: 50 + minutes, drain: true });
    const three = (await facts()).cleaningMinutes;
    expect(three).toMatchObject({ value: 50, cleanings: 3 });
    expect(three?.lo).toBeLessThan(50);
    expect(three?.hi).toBeGreaterThan(50);
    // Work on a job of another unit at that visit is no work on this one.
    const other = await db.job.create({ data: jobRow(await db.unit.create({ data: unitRow(have.kitchen.id, { name: 'Other' }) })) });
    await db.jobOutcome.create({ data: { id: crypto.randomUUID(), visitId: second, jobId: other.id, outcome: 'done', at: ago(200) } });
    expect((await facts()).cleaningMinutes).toMatchObject({ cleanings: 3 });
    const job = await db.job.create({ data: jobRow(have.unit) });
    await db.jobOutcome.create({ data: { id: crypto.randomUUID(), visitId: second, jobId: job.id, outcome: 'done', at: ago(200) } });
    expect((await facts()).cleaningMinutes).toMatchObject({ value: 45, cleanings: 2 });
    expect((await facts()).cleanings.times).toBe(3);
  });

  it('are of the latest dozen', async () => {
    for (let n = 0; n < 13; n++) await cleaned(600 - 40 * n, { minutes: n === 0 ? 100 : 30 });
    expect((await facts()).cleaningMinutes).toMatchObject({ value: 30, cleanings: 12 });
  });
});

describe('what deposit costs', () => {
  it('a coil met packed costs more as it is kept than one that cleans up whole, and a cleaner one less', async () => {
    for (let n = 0; n < 4; n++) await cleaned(360 - 90 * n, { coil: 'packed' });
    const packed = (await facts()).fouling;
    if (!packed) throw new Error('nothing is known of it');
    for (const band of [packed.now, packed.clean]) {
      expect(band.lo).toBeGreaterThanOrEqual(0);
      expect(band.lo).toBeLessThan(band.value);
      expect(band.hi).toBeGreaterThan(band.value);
    }
    expect(packed.now.value).toBeGreaterThanOrEqual(packed.clean.value);
    have = await haveOneUnit(database.db, { unit: { createdAt: ago(730) } });
    for (let n = 0; n < 4; n++) await cleaned(360 - 90 * n, { coil: 'bare' });
    const bare = (await facts()).fouling;
    expect(bare?.now.value).toBeLessThan(packed.now.value);
    expect(bare?.clean.value).toBeLessThan(packed.clean.value);
  });
});

it('of a unit whose refrigerant nobody can reckon with, nothing is said of what deposit costs', async () => {
  await database.db.unit.update({ where: { id: have.unit.id }, data: { refrigerant: 'unknown' } });
  await cleaned(90, { coil: 'packed' });
  expect((await facts()).fouling).toBeNull();
});

describe('what things cost', () => {
  it('is what the kitchen pays for energy, else the shop; with an hour and the minutes planned; or what is not said yet', async () => {
    const { db } = database;
    const price = (data: object) => db.shopSettings.update({ where: { id: 1 }, data });
    await price({ energyPricePerKwh: 0.18, labourPerHour: 95, currency: 'EUR', policy: { v: 1, cleaningCost: 110, failureCost: 1800 } });
    const { minutes } = await db.taskKind.findUniqueOrThrow({ where: { key: 'coil_cleaning' } });
    const costs = { energyPerKwh: 0.14, cleaning: 110, failure: 1800, hour: 95, plannedMinutes: minutes };
    expect(await shopCosts(db, have.unit.id)).toEqual({ costs, currency: 'EUR', lacks: [] });
    await db.kitchen.update({ where: { id: have.kitchen.id }, data: { energyPricePerKwh: null } });
    expect((await shopCosts(db, have.unit.id)).costs).toEqual({ ...costs, energyPerKwh: 0.18 });
    // Each by itself is enough to be short of.
    await price({ policy: { v: 1, failureCost: 1800 } });
    expect(await shopCosts(db, have.unit.id)).toMatchObject({ costs: null, lacks: ['a coil cleaning'] });
    await price({ policy: { v: 1, cleaningCost: 110 } });
    expect(await shopCosts(db, have.unit.id)).toMatchObject({ costs: null, lacks: ['a breakdown'] });
    await price({ energyPricePerKwh: null, policy: { v: 1, cleaningCost: 110, failureCost: 1800 } });
    expect(await shopCosts(db, have.unit.id)).toMatchObject({ costs: null, lacks: ['a kilowatt-hour'] });
    await price({ energyPricePerKwh: null, labourPerHour: null, currency: 'USD', policy: { v: 1 } });
    const lacks = ['a kilowatt-hour', 'a coil cleaning', 'a breakdown'];
    expect(await shopCosts(db, have.unit.id)).toEqual({ costs: null, currency: 'USD', lacks });
  });
});

describe('a decision', () => {
  const typed = {
    ...{ coilPrice: 900, coilYears: 10, unitPrice: 6000, unitYears: 12, leftYears: 6, useKwh: null, newKwh: null },
    ...{ callOut: 260, refrigerantPerKg: 45, interest: 0.06 },
  };
  const ctx = (at = now) => ({ db: database.db, now: at, actor: { userId: have.person.id } });
  const decide = (over: object = {}, at = now) =>
    decideUnit(ctx(at), { unitId: have.unit.id, way: 'repair' as const, reason: 'Coil is eaten', ...typed, ...over });

  it('is refused in words without prices of the shop or of a way, and for what is not in service', async () => {
    await database.db.shopSettings.update({ where: { id: 1 }, data: { energyPricePerKwh: 0.18, policy: { v: 1 } } });
    await expect(decide()).rejects.toMatchObject({
      ...{ code: 'invalid', message: 'Say first what a kilowatt-hour, a cleaning and a breakdown cost you.' },
    });
    await database.db.shopSettings.update({ where: { id: 1 }, data: { policy: { v: 1, cleaningCost: 110, failureCost: 1800 } } });
    await expect(decide({ coilPrice: null, unitPrice: null })).rejects.toMatchObject({
      ...{ code: 'invalid', field: 'coilPrice', message: 'Give the price of a coil or of a unit.' },
    });
    await expect(decide({ way: 'replace', unitPrice: null })).rejects.toMatchObject({
      ...{ code: 'invalid', field: 'way', message: 'That way has no price.' },
    });
    await database.db.unit.update({ where: { id: have.unit.id }, data: { archivedAt: now, archivedWhy: 'Sold' } });
    await expect(decide()).rejects.toMatchObject({ code: 'not_found', message: 'That unit is not in service.' });
    expect(await database.db.unitChoice.count({ where: { unitId: have.unit.id } })).toBe(0);
  });

  it('is kept by whom and when, the latest first, with what was typed for the next; each is noted', async () => {
    const { db } = database;
    await db.shopSettings.update({
      where: { id: 1 },
      data: { energyPricePerKwh: 0.18, policy: { v: 1, cleaningCost: 110, failureCost: 1800 } },
    });
    await db.unitChoice.deleteMany();
    expect(await lastFigures(db)).toBeNull();
    await db.user.update({ where: { id: have.person.id }, data: { name: 'Maren Oake' } });
    await decide({ callOut: 300 }, ago(500));
    await decide({ way: 'go_on', reason: 'It holds' });
    const [latest, earlier] = await choicesOf(db, have.unit.id);
    expect(latest).toMatchObject({
      way: 'go_on',
      reason: 'It holds',
      at: now,
      by: 'Maren Oake',
      lookedAt: null,
      lookedNote: '',
      lookedBy: '',
    });
    expect(earlier).toMatchObject({ way: 'repair', at: ago(500) });
    expect(await lastFigures(db)).toEqual({ at: now, typed });
    expect(
      await db.auditEntry.findMany({ where: { action: 'unit.decided', entityId: have.unit.id }, orderBy: { at: 'asc' } }),
    ).toMatchObject([
      { at: ago(500), userId: have.person.id, entity: 'Unit', detail: { way: 'repair', reason: 'Coil is eaten' } },
      { at: now, detail: { way: 'go_on', reason: 'It holds' } },
    ]);
    const today = localDate('2026-11-27');
    expect(await toLookAtAgain(db, today)).toEqual([
      {
        ...{ id: earlier?.id, way: 'repair', lookAgainOn: earlier?.lookAgainOn },
        unit: { id: have.unit.id, name: have.unit.name, kitchen: { name: have.kitchen.name, customer: { name: have.customer.name } } },
      },
    ]);
    const both = await toLookAtAgain(db, addDays(today, 365));
    expect(both.map((c) => c.id)).toEqual([earlier?.id, latest?.id]);
    await expect(lookAgain(ctx(), { id: have.unit.id, note: 'x' })).rejects.toMatchObject({
      ...{ code: 'conflict', message: 'Somebody looked at it meanwhile. Load the page again.' },
    });
    await lookAgain(ctx(), { id: earlier?.id ?? '', note: 'It held' });
    expect(await db.auditEntry.findFirstOrThrow({ where: { action: 'unit.decision_looked_at' } })).toMatchObject({
      ...{ at: now, userId: have.person.id, entity: 'UnitChoice', entityId: earlier?.id, detail: { note: 'It held' } },
    });
    expect((await choicesOf(db, have.unit.id))[1]).toMatchObject({ lookedAt: now, lookedBy: 'Maren Oake' });
  });
});
