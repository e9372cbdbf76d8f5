import { describe, expect, it } from 'vitest';
import { cleaningWorth, extraEnergyToday } from '@/lib/core/evidence';
import { DEFAULT_POLICY } from '@/lib/core/intervals';
import { dueCoils } from '@/lib/features/owner/reads/due-coils';
import { foulingKitchen, foulingKitchens } from '@/lib/features/owner/reads/kitchens';
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
