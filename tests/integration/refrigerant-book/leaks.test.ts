import { randomUUID } from 'node:crypto';
import { afterEach, describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import type { SealedWork } from '@/lib/core/sealed/work';
import { STORED_SEALED_WORK } from '@/lib/database/stored/sealed';
import {
  CHECK_RULES_ON_FILE,
  chronicIn,
  leakingUnits,
  leaksOfUnit,
  RULES_ON_FILE,
  unitsToCheck,
} from '@/lib/features/refrigerant-book/reads/leaks';
import { counterEntry } from '@/lib/features/refrigerant-book/verbs/counter-entry';
import { addLeakTest } from '@/lib/features/refrigerant-book/verbs/leaks';
import { exportChronic } from '@/lib/features/refrigerant-book/verbs/export-book';
import { useDatabase } from '../../support/database';
import { haveOneUnit, type unitRow, visitRow } from '../../support/factories';

const database = useDatabase();

type Unit = Partial<ReturnType<typeof unitRow>>;

/** A unit of 10 kg of R-448A, and so much added on these days. */
async function leaky(additions: [day: string, kg: number][], over: { unit?: Unit; timeZone?: string } = {}) {
  const { db } = database;
  const shop = await haveOneUnit(db, {
    unit: { refrigerant: 'R448A', chargeKg: 10, circuitAccess: 'ports', ...over.unit },
    kitchen: over.timeZone ? { timeZone: over.timeZone } : {},
  });
  const certificate = await db.certificate.create({ data: { userId: shop.person.id, kind: 'us_608_universal', number: 'U-3' } });
  const cylinder = await db.cylinder.create({
    data: { label: randomUUID().slice(0, 8), refrigerant: shop.unit.refrigerant, contents: 'new', tareKg: 5, firstKg: 90, mostKg: 90 },
  });
  /** Taken out of the cylinder above zero; put into it, so taken out of the unit, below. */
  const add = (moment: string, kg: number) =>
    db.cylinderEntry.create({
      data: {
        cylinderId: cylinder.id, way: kg < 0 ? 'recovered' : 'charged', kg: -kg, unitId: shop.unit.id, byUserId: shop.person.id,
        certificateId: certificate.id, at: new Date(moment.includes('T') ? moment : `${moment}T19:00:00Z`), recoveredFor: kg < 0 ? 'reuse' : null,
      },
    }); // prettier-ignore
  for (const [day, kg] of additions) await add(day, kg);
  const mine = async (today: string) => (await leakingUnits(db, localDate(today))).filter((l) => l.unit.id === shop.unit.id);
  const office = { userId: shop.person.id, name: shop.person.name, role: 'dispatcher' as const, sessionId: shop.person.id };
  const test = (on: string, kind: 'initial' | 'follow_up', passed: 'yes' | 'no', now = new Date('2026-12-31T19:00:00Z')) =>
    addLeakTest({ db, actor: office, now }, { unitId: shop.unit.id, on: localDate(on), kind, passed, how: 'Nitrogen and soap' });
  return { ...shop, db, certificate, cylinder, add, mine, test };
}

afterEach(() => database.db.shopSettings.updateMany({ data: { leakMethod: 'annualizing' } }));

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
  const { db, unit, person, mine, test } = await leaky([
    ['2026-03-01', 3],
    ['2026-03-20', 0.02],
  ]);
  const clock = async (today: string) => (await mine(today))[0]?.rules[0]?.clock;
  expect(await clock('2026-04-02')).toMatchObject({ state: 'overdue', rate: { on: '2026-03-01' } });
  const now = new Date('2026-04-10T19:00:00Z');
  await test('2026-03-21', 'initial', 'yes', now);
  expect(await clock('2026-03-25')).toMatchObject({ state: 'follow_up_due', dueOn: '2026-03-31' });
  await test('2026-03-29', 'follow_up', 'yes', now);
  expect(await clock('2026-04-02')).toMatchObject({ state: 'below' });
  await expect(test('2026-04-11', 'follow_up', 'yes', now)).rejects.toMatchObject({ code: 'invalid', field: 'on' });
  expect(await db.auditEntry.findFirst({ where: { entityId: unit.id, action: 'unit.leak_test' }, orderBy: { id: 'asc' } })).toMatchObject({
    entity: 'Unit',
    userId: person.id,
    at: now,
    detail: { on: '2026-03-21', kind: 'initial', passed: 'yes' },
  });
  // 10 kg of R-448A are about 14 t of CO2: once a year.
  expect((await unitsToCheck(db, localDate('2026-04-10'))).find((l) => l.unit.id === unit.id)).toMatchObject({
    checkMonths: 12,
    lastTestOn: '2026-03-29',
  });
});

describe('what a unit loses', () => {
  it('is charged less what was taken out to open it, by its kitchen’s day, without lines taken back', async () => {
    const { db, add, mine, person, unit } = await leaky([['2026-05-04', -8]], { timeZone: 'Asia/Tokyo' });
    // Four in the afternoon UTC is one in the morning of the next day there.
    await add('2026-05-04T16:00:00Z', 9);
    const slip = await add('2026-05-09', 4);
    await counterEntry(db, slip, { byUserId: person.id, at: new Date('2026-05-10T19:00:00Z'), note: 'Another unit' });
    expect(await mine('2026-06-01')).toMatchObject([
      {
        unit: { id: unit.id, name: unit.name, tag: unit.tag, refrigerant: 'R448A', chargeKg: 10 },
        additions: [{ on: '2026-05-05', kg: expect.closeTo(1, 9) }],
        annualizing: [{ on: '2026-05-05', percent: expect.closeTo(10, 9) }],
        rolling: [{ on: '2026-05-05', percent: expect.closeTo(10, 9) }],
        lastTestOn: null,
      },
    ]);
  });

  it('is nothing where all that went in had come out of it: such a unit is no leaker, and has a page nonetheless', async () => {
    const { db, mine, unit } = await leaky([
      ['2026-05-04', -8],
      ['2026-05-05', 8],
    ]);
    expect(await mine('2026-06-01')).toEqual([]);
    expect(await leaksOfUnit(db, unit.id, localDate('2026-06-01'))).toMatchObject({
      unit: { id: unit.id },
      additions: [],
      annualizing: [],
    });
    expect(await leaksOfUnit(db, randomUUID(), localDate('2026-06-01'))).toBeNull();
  });

  it('is kilograms alone where its full charge is not known: no rate, no rule, no CO2', async () => {
    const { mine } = await leaky([['2026-05-04', 3]], { unit: { chargeKg: null } });
    const [leaks] = await mine('2026-06-01');
    expect(leaks).toMatchObject({ additions: [{ kg: 3 }], annualizing: [], rolling: [], rules: [], co2: null, checkMonths: null });
    expect(chronicIn(leaks ? [leaks] : [], 2026, localDate('2026-12-31'))).toEqual([]);
  });

  it('the fastest stands first, by its latest addition', async () => {
    const slow = await leaky([
      ['2025-01-10', 9],
      ['2026-01-10', 1],
    ]);
    const fast = await leaky([['2026-01-10', 6]]);
    const unknown = await leaky([['2026-01-10', 9]], { unit: { chargeKg: null } });
    const order = (await leakingUnits(slow.db, localDate('2026-02-01'))).map((l) => l.unit.id);
    const places = [fast, slow, unknown].map((u) => order.indexOf(u.unit.id));
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    expect(places).not.toContain(-1);
  });

  it('is judged by the method that the shop has chosen', async () => {
    // Half a kilogram of ten within a month is 61 % a year; of the year it is 15 %.
    const { db, mine } = await leaky([
      ['2026-03-01', 1],
      ['2026-03-31', 0.5],
    ]);
    const clock = async () => (await mine('2026-04-02'))[0]?.rules[0]?.clock;
    expect(await clock()).toMatchObject({ state: 'repair_due', rate: { method: 'annualizing', percent: expect.closeTo(60.83, 2) } });
    await db.shopSettings.updateMany({ data: { leakMethod: 'rolling' } });
    expect(await clock()).toMatchObject({ state: 'below', rate: { method: 'rolling', percent: expect.closeTo(15, 9) } });
  });

  it('rolling, counts from the last follow-up test that was passed: a first test or a failed one ends nothing', async () => {
    const { mine, test } = await leaky([
      ['2026-02-01', 1],
      ['2026-04-01', 0.5],
    ]);
    const last = async () => (await mine('2026-05-01'))[0]?.rolling.at(-1)?.percent;
    await test('2026-02-03', 'initial', 'yes');
    await test('2026-02-10', 'follow_up', 'no');
    expect(await last()).toBeCloseTo(15, 9);
    await test('2026-02-20', 'follow_up', 'yes');
    expect(await last()).toBeCloseTo(5, 9);
  });

  it('stands under the rules of the day: none before 2026 for what spares the ozone layer, with its own inspections', async () => {
    const { mine } = await leaky([['2025-11-01', 3]]);
    expect((await mine('2025-12-31'))[0]?.rules).toEqual([]);
    expect((await mine('2026-01-01'))[0]?.rules).toMatchObject([
      { rule: { key: 'us-aim' }, clock: { thresholdPercent: 20 }, inspectMonths: 12 },
    ]);
    const old = await leaky([['2025-11-01', 30]], { unit: { refrigerant: 'R22', chargeKg: 40 } });
    expect((await old.mine('2026-01-01'))[0]?.rules).toMatchObject([{ rule: { key: 'us-608' }, inspectMonths: 12 }]);
    const heavy = await leaky([['2025-11-01', 30]], { unit: { chargeKg: 300 } });
    expect((await heavy.mine('2026-01-01'))[0]?.rules).toMatchObject([{ rule: { key: 'us-aim' }, inspectMonths: 3 }]);
  });
});

describe('tests of a repair record', () => {
  const test = (minutes: number, paGauge: number): SealedWork => ({
    step: 'pressure_test',
    platePaGauge: 3.8e6,
    gaugeDivisionPa: 6895,
    start: { at: '2026-06-02T14:00:00.000Z', paGauge: 3.4e6, temperatureK: 294 },
    end: { at: new Date(Date.parse('2026-06-02T14:00:00Z') + minutes * 60_000).toISOString(), paGauge, temperatureK: 294 },
  });

  /** A pressure test on file, each of a record of its own. */
  async function haveStep(
    shop: Awaited<ReturnType<typeof leaky>>,
    work: SealedWork | null,
    over: { at?: string; supersededAt?: Date } = {},
  ) {
    const at = new Date(over.at ?? '2026-06-02T15:00:00Z');
    const visit = await shop.db.visit.create({ data: visitRow(shop.kitchen.id, shop.person.id, at, 60) });
    const record = await shop.db.sealedRecord.create({ data: { id: randomUUID(), unitId: shop.unit.id, begunAt: at } });
    await shop.db.sealedStep.create({
      data: {
        id: randomUUID(), recordId: record.id, visitId: visit.id, unitId: shop.unit.id, step: 'pressure_test', at, byUserId: shop.person.id,
        certificateId: shop.certificate.id, supersededAt: over.supersededAt ?? null,
        ...(work ? { work: STORED_SEALED_WORK.write(work) } : { skippedWhy: 'No nitrogen on the van' }),
      },
    }); // prettier-ignore
  }
  const told = async (shop: Awaited<ReturnType<typeof leaky>>) => (await shop.mine('2026-07-01'))[0]?.tests;

  it('are the first test of a repair where they held or leaked, in the order of their days with those of the book', async () => {
    const shop = await leaky([['2026-06-01', 3]]);
    await shop.test('2026-06-10', 'follow_up', 'yes');
    await shop.test('2026-05-20', 'initial', 'no');
    // Two in the morning UTC is still the day before there.
    await haveStep(shop, test(60, 3.4e6), { at: '2026-06-04T02:00:00Z' });
    await haveStep(shop, test(60, 3.1e6));
    expect(await told(shop)).toEqual([
      { on: '2026-05-20', kind: 'initial', passed: false, from: 'book' },
      { on: '2026-06-02', kind: 'initial', passed: false, from: 'record' },
      { on: '2026-06-03', kind: 'initial', passed: true, from: 'record' },
      { on: '2026-06-10', kind: 'follow_up', passed: true, from: 'book' },
    ]);
    expect((await shop.mine('2026-07-01'))[0]).toMatchObject({ lastTestOn: '2026-06-10', rules: [{ clock: { state: 'verified' } }] });
    const csv = await exportChronic({ db: shop.db, now: new Date('2026-07-01T19:00:00Z') }, 2026);
    expect(csv).not.toContain(shop.unit.tag);
  });

  it('say nothing where they were too short, were left out, or stand no more', async () => {
    const shop = await leaky([['2026-06-01', 3]]);
    await haveStep(shop, test(5, 3.4e6), { at: '2026-06-02T16:00:00Z' });
    await haveStep(shop, test(0, 3.1e6), { at: '2026-06-02T17:00:00Z' });
    await haveStep(shop, null, { at: '2026-06-02T18:00:00Z' });
    await haveStep(shop, test(60, 3.1e6), { supersededAt: new Date('2026-06-03T15:00:00Z') });
    expect(await told(shop)).toEqual([]);
    const other = await leaky([['2026-06-01', 3]]);
    await haveStep(other, test(60, 3.1e6));
    expect(await told(shop)).toEqual([]);
  });
});

describe('a report on chronic leakers', () => {
  it('is due from five quarters of the charge within one year, and says what was added when and how the tests went', async () => {
    const shop = await leaky([
      ['2026-12-30', 5],
      ['2027-02-01', 6],
      ['2027-11-01', 6.5],
    ]);
    await shop.db.unit.update({ where: { id: shop.unit.id }, data: { name: '=Walk-in' } });
    await shop.test('2026-12-31', 'initial', 'no', new Date('2028-01-20T19:00:00Z'));
    await shop.test('2027-02-02', 'initial', 'yes', new Date('2028-01-20T19:00:00Z'));
    await shop.test('2027-02-09', 'follow_up', 'no', new Date('2028-01-20T19:00:00Z'));
    const just = await leaky([['2027-03-01', 12.4]]);
    const csv = await exportChronic({ db: shop.db, now: new Date('2028-01-20T19:00:00Z') }, 2027);
    const lines = csv.split('\r\n');
    expect(lines[0]).toBe('\uFEFFunit,tag,kitchen,customer,refrigerant,full charge kg,added kg,% of full charge,added on,tests,rule');
    expect(lines.filter((l) => l.includes(shop.unit.tag))).toEqual([
      `'=Walk-in,${shop.unit.tag},${shop.kitchen.name},${shop.customer.name},R448A,10.000,12.500,125.0,2027-02-01 2027-11-01,2027-02-02 first passed; 2027-02-09 follow-up failed,"AIM Act, subsection (h), 40 CFR 84.106(j)"`,
    ]);
    expect(csv).not.toContain(just.unit.tag);
    expect(lines.at(-1)).toBe('');
  });

  it('goes by the rules as they stood when the year ended, and this year by those of today', async () => {
    const { mine } = await leaky([
      ['2025-06-01', 14],
      ['2026-01-10', 14],
    ]);
    const today = localDate('2026-01-20');
    const all = await mine('2026-01-20');
    // What spares the ozone layer came under a rule on the first of January 2026.
    expect(chronicIn(all, 2025, today)).toEqual([]);
    expect(chronicIn(all, 2026, today)).toMatchObject([{ addedKg: 14, percent: expect.closeTo(140, 9), days: ['2026-01-10'] }]);
    expect(chronicIn(all, 2026, localDate('2025-12-31'))).toEqual([]);
  });
});

it('EU leak checks are asked of whatever is heavy enough in CO2 and in use, the heaviest first', async () => {
  const { db } = database;
  const today = localDate('2026-04-10');
  const heavy = await leaky([], { unit: { refrigerant: 'R404A', chargeKg: 20 } });
  const light = await leaky([], { unit: { refrigerant: 'R404A', chargeKg: 2 } });
  const sealed = await leaky([], { unit: { refrigerant: 'R404A', chargeKg: 2, circuitAccess: 'sealed' } });
  const little = await leaky([], { unit: { refrigerant: 'R134a', chargeKg: 3 } });
  const byMass = await leaky([], { unit: { refrigerant: 'R1234yf', chargeKg: 1.5 } });
  const gone = await leaky([], { unit: { refrigerant: 'R404A', chargeKg: 20, archivedAt: new Date('2026-01-01') } });
  const list = await unitsToCheck(db, today);
  const of = (shop: { unit: { id: string } }) => list.find((l) => l.unit.id === shop.unit.id);
  // A kilogram of R-404A is as much as 3922 of carbon dioxide.
  expect(of(heavy)).toMatchObject({ co2: expect.closeTo(78.44, 6), checkMonths: 6 });
  expect(of(light)).toMatchObject({ co2: expect.closeTo(7.844, 6), checkMonths: 12 });
  expect(of(byMass)).toMatchObject({ checkMonths: 12 });
  expect([sealed, little, gone].map(of)).toEqual([undefined, undefined, undefined]);
  const weights = list.map((l) => l.co2 ?? 0);
  expect(weights).toEqual(weights.toSorted((a, b) => b - a));
  expect(weights.length).toBeGreaterThan(2);
});

it('the rules are listed newest first', () => {
  for (const rules of [RULES_ON_FILE, CHECK_RULES_ON_FILE]) {
    const days = rules.map((r) => r.from);
    expect(days).toEqual(days.toSorted().reverse());
    expect(new Set(days).size).toBeGreaterThan(1);
  }
});

it('a test of a unit that is not on file is refused', async () => {
  const { db, person } = await leaky([]);
  const actor = { userId: person.id, name: person.name, role: 'dispatcher' as const, sessionId: person.id };
  const on = localDate('2026-03-01');
  const asked = addLeakTest(
    { db, actor, now: new Date('2026-04-10T19:00:00Z') },
    { unitId: randomUUID(), on, kind: 'initial', passed: 'yes', how: '' },
  );
  await expect(asked).rejects.toMatchObject({ code: 'not_found', message: 'That unit is not on file.' });
});
