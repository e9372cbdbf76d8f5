import { describe, expect, it } from 'vitest';
import { refitLeftOver } from '@/lib/features/intervals/verbs/refit-claim';
import { refitFleet } from '@/lib/features/intervals/verbs/refit-fleet';
import { refitStep, type RefitStep } from '@/lib/features/intervals/verbs/refit-step';
import { useDatabase } from '../../support/database';
import { haveOneUnit, kitchenRow, unitRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');
const KITCHENS = 45;

describe('the weekly refit', () => {
  it('goes on where a process was stopped, one process at a time, and works limits out anew only where their ground has changed', async () => {
    const { db } = database;
    const { customer, kitchen, unit } = await haveOneUnit(db);
    const kitchens = await db.kitchen.createManyAndReturn({
      data: Array.from({ length: KITCHENS - 1 }, (_, i) => kitchenRow(customer.id, { name: `Refit ${i}` })),
    });
    await db.unit.createMany({ data: kitchens.map((k, i) => unitRow(k.id, { name: `Unit ${i}` })) });

    const steps: RefitStep[] = [];
    const run = (step: RefitStep) => {
      steps.push(step);
      return refitStep(db, step);
    };
    // Killed in its fourth step: nothing is cleared up after it, and for a minute it may still be alive.
    const killed = (step: RefitStep) => (steps.length === 4 ? new Promise<never>(() => undefined) : run(step));
    void refitFleet({ db, now }, { run: killed, atOnce: 1 });
    await expect.poll(() => db.refitRun.findFirst(), { timeout: 20_000 }).toMatchObject({ units: 40, finishedAt: null });
    expect(steps.map((s) => s.what)).toEqual(['fit', 'fit', 'bring_up', 'bring_up']);
    expect(await refitFleet({ db, now }, { run, atOnce: 1 })).toBeNull();
    expect(await refitLeftOver(db)).toBe(false);

    // The dead process' beat stops with it; here its timer lives on, so its claim is taken away first.
    await db.refitRun.updateMany({ data: { claim: null, beatAt: new Date(Date.now() - 120_000) } });
    expect(await refitLeftOver(db)).toBe(true);
    steps.length = 0;
    const both = await Promise.all([refitFleet({ db, now }, { run, atOnce: 1 }), refitFleet({ db, now }, { run, atOnce: 1 })]);
    expect(both.filter(Boolean)).toEqual([{ units: KITCHENS }]);
    expect(steps.map((s) => [s.what, s.kitchenIds.length])).toEqual([['bring_up', 5]]);
    expect(await db.unitFouling.count()).toBe(KITCHENS);
    expect(await db.fleetPrior.count()).toBe(1);
    expect(await db.refitRun.findMany()).toMatchObject([{ units: KITCHENS, tries: 2, finishedAt: now }]);

    const kept = () => db.unitFouling.findUniqueOrThrow({ where: { unitId: unit.id }, select: { own: true, ownKey: true } });
    const before = await kept();
    expect(before).toMatchObject({ own: expect.any(Object), ownKey: expect.any(String) });
    await db.$executeRaw`UPDATE "UnitFouling" SET own = '{"limits":[],"failureLimit":null,"passedClean":[],"kwhPerDay":[],"v":1}' WHERE "unitId" = ${unit.id}::uuid`;
    await refitFleet({ db, now });
    expect(await kept()).toMatchObject({ ownKey: before.ownKey, own: { limits: [] } });
    await db.kitchen.update({ where: { id: kitchen.id }, data: { hotDayAirK: 316 } });
    await refitFleet({ db, now });
    const after = await kept();
    expect(after.ownKey).not.toBe(before.ownKey);
    expect(after.own).not.toMatchObject({ limits: [] });
  }, 60_000);
});
