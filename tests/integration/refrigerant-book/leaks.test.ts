import { expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { chronicIn, leakingUnits, unitsToCheck } from '@/lib/features/refrigerant-book/reads/leaks';
import { addLeakTest } from '@/lib/features/refrigerant-book/verbs/leaks';
import { exportChronic } from '@/lib/features/refrigerant-book/verbs/export-book';
import { useDatabase } from '../../support/database';
import { haveOneUnit } from '../../support/factories';

const database = useDatabase();

/** A unit of 10 kg of R-448A, and so much added on these days. */
async function leaky(additions: [day: string, kg: number][]) {
  const { db } = database;
  const shop = await haveOneUnit(db, { unit: { refrigerant: 'R448A', chargeKg: 10, circuitAccess: 'ports' } });
  const certificate = await db.certificate.create({ data: { userId: shop.person.id, kind: 'us_608_universal', number: 'U-3' } });
  const cylinder = await db.cylinder.create({
    data: { label: crypto.randomUUID().slice(0, 8), refrigerant: 'R448A', contents: 'new', tareKg: 5, firstKg: 50, mostKg: 50 },
  });
  for (const [day, kg] of additions)
    await db.cylinderEntry.create({
      data: {
        cylinderId: cylinder.id, way: 'charged', kg: -kg, unitId: shop.unit.id, byUserId: shop.person.id,
        certificateId: certificate.id, at: new Date(`${day}T19:00:00Z`),
      },
    }); // prettier-ignore
  const mine = async (today: string) => (await leakingUnits(db, localDate(today))).filter((l) => l.unit.id === shop.unit.id);
  return { ...shop, db, mine };
}

it('a chronic leaker of last year stands in its report until it is sent, not only while the year runs', async () => {
  const { db, unit, mine } = await leaky([
    ['2026-02-01', 6],
    ['2026-11-01', 6.5],
  ]);
  const january = localDate('2027-01-20');
  const chronic = chronicIn(await mine('2027-01-20'), 2026, january);
  expect(chronic).toMatchObject([{ percent: expect.closeTo(125, 6), days: ['2026-02-01', '2026-11-01'], rule: { key: 'us-aim' } }]);
  expect(chronicIn(await mine('2027-01-20'), 2027, january)).toEqual([]);
  const csv = await exportChronic({ db, now: new Date('2027-01-20T19:00:00Z') }, 2026);
  expect(csv).toContain(unit.tag);
  expect(csv).toContain('125.0,2026-02-01 2026-11-01');
});

it('a repair stays due until its tests are passed, and an EU check counts from the last of them', async () => {
  const { db, unit, person, mine } = await leaky([
    ['2026-03-01', 3],
    ['2026-03-20', 0.02],
  ]);
  const clock = async (today: string) => (await mine(today))[0]?.rules[0]?.clock;
  expect(await clock('2026-04-02')).toMatchObject({ state: 'overdue', rate: { on: '2026-03-01' } });
  const office = { userId: person.id, name: person.name, role: 'dispatcher' as const, sessionId: person.id };
  const now = new Date('2026-04-10T19:00:00Z');
  const test = (on: string, kind: 'initial' | 'follow_up', passed: 'yes' | 'no') =>
    addLeakTest({ db, actor: office, now }, { unitId: unit.id, on: localDate(on), kind, passed, how: 'Nitrogen and soap' });
  await test('2026-03-21', 'initial', 'yes');
  expect(await clock('2026-03-25')).toMatchObject({ state: 'follow_up_due', dueOn: '2026-03-31' });
  await test('2026-03-29', 'follow_up', 'yes');
  expect(await clock('2026-04-02')).toMatchObject({ state: 'below' });
  await expect(test('2026-04-11', 'follow_up', 'yes')).rejects.toMatchObject({ field: 'on' });
  // 10 kg of R-448A are about 14 t of CO2: once a year.
  expect((await unitsToCheck(db, localDate('2026-04-10'))).find((l) => l.unit.id === unit.id)).toMatchObject({
    checkMonths: 12,
    lastTestOn: '2026-03-29',
  });
});
