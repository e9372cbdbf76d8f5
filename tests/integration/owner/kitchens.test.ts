import { describe, expect, it } from 'vitest';
import { cleaningWorth, extraEnergyToday } from '@/lib/core/evidence';
import { DEFAULT_POLICY } from '@/lib/core/intervals';
import { dueCoils } from '@/lib/features/owner/reads/due-coils';
import { foulingKitchen, foulingKitchens } from '@/lib/features/owner/reads/kitchens';
import { kitchenSeasons } from '@/lib/features/owner/reads/seasons';
import { refitFleet } from '@/lib/features/intervals/verbs/refit-fleet';
import { useDatabase } from '../../support/database';
import { findingRow, haveOneUnit, unitRow, visitRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');

describe('what the owner is told of a kitchen', () => {
  it('counts only coils that somebody looked at and that air cools', async () => {
    const { db } = database;
    const { kitchen, unit, person } = await haveOneUnit(db);
    const [water] = await db.unit.createManyAndReturn({
      data: [
        unitRow(kitchen.id, { name: 'By water', condenserKind: 'water_cooled' }),
        unitRow(kitchen.id, { name: 'Never looked at' }),
        unitRow(kitchen.id, { name: 'Scrapped', archivedAt: now }),
      ],
    });
    const at = new Date('2026-02-16T18:00:00Z');
    const visit = await db.visit.create({ data: visitRow(kitchen.id, person.id, at, 60, { status: 'done', closedAt: at }) });
    const seen = [unit.id, water?.id ?? expect.fail('no unit')];
    await db.finding.createMany({ data: seen.map((id) => findingRow(visit.id, id, 'coil', 'matted', at)) });
    await refitFleet({ db, now });
    expect(await db.unitFouling.count({ where: { unit: { kitchenId: kitchen.id } } })).toBe(3);

    const [kitchenShown] = await foulingKitchens(db, now, { take: 5, skip: 0 });
    expect(kitchenShown).toMatchObject({ id: kitchen.id, units: 1, unseen: 1, water: 1, fastest: { id: unit.id } });
    const looked = await foulingKitchen(db, kitchen.id, now);
    expect(looked).toMatchObject({ left: { unseen: 1, water: 1 }, units: [{ id: unit.id }] });
    expect(kitchenShown?.energy).toEqual(extraEnergyToday(looked?.units ?? []));
    expect(kitchenShown?.energy?.value).toBeGreaterThan(0);
    expect(kitchenShown?.evidence).toBe(looked?.units[0]?.evidenceCount);

    // Season by season too: of what water cools air tells nothing.
    const seasons = (unitId: string | null) => kitchenSeasons(db, kitchen, unitId, now);
    const ofOne = await seasons(unit.id);
    expect(ofOne.at(-1)).toMatchObject({ from: '2026-01-01', coils: 1, looks: 1 });
    expect(await seasons(null)).toEqual(ofOne);
    expect((await seasons(water?.id ?? '')).every((s) => s.coils === 0)).toBe(true);

    // The same coils are weighed against the price of a cleaning, once theirs comes due.
    const weighed = () => dueCoils(db, now, 30);
    await db.task.updateMany({ where: { kitchenId: kitchen.id }, data: { dueOn: new Date('2026-05-01') } });
    expect(await weighed()).toMatchObject({ coils: [], unseen: 0 });
    await db.task.updateMany({
      where: { unitId: unit.id, kindKey: 'coil_cleaning' },
      data: { dueOn: new Date('2026-03-14'), rule: 'FREQ=WEEKLY;INTERVAL=10' },
    });
    const { coils, more } = await weighed();
    expect(coils).toMatchObject([{ dueInDays: 10, lastsDays: 70, pricePerKwh: kitchen.energyPricePerKwh, days: expect.any(Number) }]);
    expect(more).toBe(false);
    const worth = cleaningWorth(coils, { cleaningCost: 60, failureCost: 1000 }, DEFAULT_POLICY);
    expect(worth?.energy.value).toBeGreaterThan(0);
  });

  it('says nothing where nobody looked, however many rows are on file', async () => {
    const { db } = database;
    const { kitchen } = await haveOneUnit(db);
    await refitFleet({ db, now });
    const kitchenShown = (await foulingKitchens(db, now, { take: 5, skip: 0 })).find((k) => k.id === kitchen.id);
    expect(kitchenShown).toMatchObject({
      units: 0,
      unseen: 1,
      water: 0,
      evidence: 0,
      monthly: null,
      energy: null,
      money: null,
      fastest: null,
    });
  });
});

describe('the list of kitchens', () => {
  it('stands fastest first, then those that nobody looked into by name, page by page, none out of use, each at its own price', async () => {
    const { db } = database;
    await db.kitchen.updateMany({ data: { archivedAt: now } });
    await db.shopSettings.update({ where: { id: 1 }, data: { energyPricePerKwh: 0.2 } });
    const kitchen = async (name: string, rate: number | null, over: object = {}) => {
      const made = await haveOneUnit(db, { kitchen: { name, ...over } });
      if (rate !== null) {
        const at = new Date('2026-02-16T18:00:00Z');
        const visit = await db.visit.create({ data: visitRow(made.kitchen.id, made.person.id, at, 60, { status: 'done', closedAt: at }) });
        await db.finding.create({ data: findingRow(visit.id, made.unit.id, 'coil', 'matted', at) });
      }
      return { ...made, rate };
    };
    const made = [
      await kitchen('Yew', null),
      await kitchen('Ash', null),
      await kitchen('Slow', 0.001, { energyPricePerKwh: null }),
      await kitchen('Fast', 0.02, { energyPricePerKwh: 0.5 }),
      await kitchen('Gone', 0.09, { archivedAt: now }),
    ];
    await refitFleet({ db, now });
    for (const { unit, rate } of made)
      if (rate !== null)
        await db.unitFouling.updateMany({
          where: { unitId: unit.id },
          data: { ratePerDay: rate, rateSdPerDay: rate / 10, lnK: -0.3, lnKSd: 0.05 },
        });
    const all = await foulingKitchens(db, now, { take: 10, skip: 0 });
    expect(all.map((k) => k.name)).toEqual(['Fast', 'Slow', 'Ash', 'Yew']);
    expect((await foulingKitchens(db, now, { take: 2, skip: 1 })).map((k) => k.name)).toEqual(['Slow', 'Ash']);
    const [fast, slow] = all;
    expect([fast, slow].map((k) => [k?.rate, k?.sd])).toEqual([[0.02, 0.002], [0.001, 0.0001]]); // prettier-ignore
    expect(fast?.money?.value).toBeCloseTo(0.5 * (fast?.energy?.value ?? NaN), 9);
    // The shop's own price where the kitchen has none.
    expect(slow?.money?.value).toBeCloseTo(0.2 * (slow?.energy?.value ?? NaN), 9);
    expect(fast?.monthly?.value).toBeCloseTo(1 - Math.exp(-0.6), 3);
    const slowId = made[2]?.kitchen.id ?? '';
    expect((await foulingKitchen(db, slowId, now))?.kitchen).toMatchObject({
      name: 'Slow',
      energyPricePerKwh: 0.2,
      customer: { name: made[2]?.customer.name },
    });
    expect(await foulingKitchen(db, crypto.randomUUID(), now)).toBeNull();
  });

  it('counts what is overdue by the kitchen’s own day', async () => {
    const { db } = database;
    // Six in the evening UTC is already the fifth of March in Tokyo.
    const late = async (timeZone: string) => {
      const dueOn = (day: string) => ({ dueOn: new Date(`${day}T00:00:00Z`) });
      const tasks = [
        { kindKey: 'coil_cleaning' as const, ...dueOn('2026-03-03') },
        { kindKey: 'drain_inspection' as const, ...dueOn('2026-03-04') },
        { kindKey: 'evaporator_inspection' as const, ...dueOn('2026-02-01'), active: false },
      ];
      const { kitchen } = await haveOneUnit(db, { kitchen: { timeZone }, tasks });
      return (await foulingKitchens(db, now, { take: 50, skip: 0 })).find((k) => k.id === kitchen.id)?.overdue;
    };
    expect([await late('America/Denver'), await late('Asia/Tokyo')]).toEqual([1, 2]);
  });
});

describe('coils whose cleaning comes due', () => {
  it('are told soonest first with what their belief says, and how many that nobody looked at; none out of use', async () => {
    const { db } = database;
    await db.task.updateMany({ data: { active: false } });
    await db.shopSettings.update({ where: { id: 1 }, data: { energyPricePerKwh: 0.25 } });
    const coil = async (
      dueOn: string,
      over: { rule?: string; evidence?: number; unit?: object; kitchen?: object; asOf?: string; kindKey?: 'drain_inspection' } = {},
    ) => {
      const task = {
        kindKey: over.kindKey ?? ('coil_cleaning' as const),
        dueOn: new Date(dueOn),
        rule: over.rule ?? 'FREQ=WEEKLY;INTERVAL=10',
      };
      const made = await haveOneUnit(db, { tasks: [task], unit: over.unit ?? {}, kitchen: over.kitchen ?? {} });
      await db.unitFouling.create({
        data: { unitId: made.unit.id, posterior: {}, ratePerDay: 0.01, rateSdPerDay: 0.001, lnK: -0.2, lnKSd: 0.1, evidenceCount: over.evidence ?? 3, modelVersion: 'test', asOf: new Date(over.asOf ?? '2026-02-22') },
      }); // prettier-ignore
      return made;
    };
    await coil('2026-04-03', { kitchen: { energyPricePerKwh: null } });
    await coil('2026-01-10', { rule: 'FREQ=DAILY;INTERVAL=2', kitchen: { energyPricePerKwh: 0.4 }, asOf: '2026-03-20' });
    await coil('2026-04-04');
    await coil('2026-03-10', { evidence: 0 });
    await coil('2026-03-10', { unit: { condenserKind: 'water_cooled' } });
    await coil('2026-03-10', { unit: { archivedAt: now } });
    await coil('2026-03-10', { kitchen: { archivedAt: now } });
    await coil('2026-03-10', { kindKey: 'drain_inspection' });
    expect(await dueCoils(db, now, 30)).toMatchObject({
      coils: [
        // Overdue counts from today; a belief of a later day than today as of today; a week is the shortest that a cleaning lasts.
        { dueInDays: 0, days: 0, lastsDays: 7, pricePerKwh: 0.4, ratePerDay: 0.01, rateSdPerDay: 0.001, lnK: -0.2, lnKSd: 0.1, own: null },
        { dueInDays: 30, days: 10, lastsDays: 70, pricePerKwh: 0.25 },
      ],
      unseen: 2,
      more: false,
    });
  });
});

describe('a unit put right on file', () => {
  it('does not keep the energy of the refrigerant that it had before', async () => {
    const { db } = database;
    const { unit } = await haveOneUnit(db);
    const own = async () => (await db.unitFouling.findUniqueOrThrow({ where: { unitId: unit.id } })).own;
    await refitFleet({ db, now });
    expect(await own()).not.toBeNull();
    await db.unit.update({ where: { id: unit.id }, data: { refrigerant: 'R-not-in-any-table' } });
    await refitFleet({ db, now });
    expect(await own()).toBeNull();
  });
});
