import { describe, expect, it } from 'vitest';
import { deadFans } from '@/lib/features/owner/reads/decisions';
import { useDatabase } from '../../support/database';
import { findingRow, haveOneUnit, visitRow } from '../../support/factories';

const database = useDatabase();
const at = (time: string) => new Date(`2026-03-04T${time}:00Z`);

/** A unit whose fan was found dead at ten on a visit, and whether the owner is told of it. */
async function haveDeadFan(phase: 'found' | 'left' = 'found') {
  const { db } = database;
  const { kitchen, unit, person } = await haveOneUnit(db);
  const visit = await db.visit.create({ data: visitRow(kitchen.id, person.id, at('09:30'), 60, { status: 'started' }) });
  await db.finding.create({ data: findingRow(visit.id, unit.id, 'condenser_fan', 'failed', at('10:00'), { phase }) });
  return {
    replaced: (time: string, visitId: string | null = visit.id) =>
      db.unitEvent.create({ data: { unitId: unit.id, visitId, kind: 'fan_replaced', at: at(time) } }),
    isListed: async () => (await deadFans(db)).some((f) => f.unitId === unit.id),
  };
}

describe('a dead condenser fan before the owner', () => {
  it('waits for a word until it was replaced, on the same visit or later', async () => {
    const fan = await haveDeadFan();
    expect(await fan.isListed()).toBe(true);
    await fan.replaced('10:40');
    expect(await fan.isListed()).toBe(false);
  });

  it('is mended too where the replacement was written down first', async () => {
    const fan = await haveDeadFan();
    await fan.replaced('09:50');
    expect(await fan.isListed()).toBe(false);
  });

  it('waits on where it was replaced before, or left dead', async () => {
    const before = await haveDeadFan();
    await before.replaced('09:00', null);
    expect(await before.isListed()).toBe(true);
    const left = await haveDeadFan('left');
    await left.replaced('09:50');
    expect(await left.isListed()).toBe(true);
  });
});
