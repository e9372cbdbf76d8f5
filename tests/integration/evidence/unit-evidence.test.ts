import { describe, expect, it } from 'vitest';
import { fleetBelief, kitchenMessages, policyOnFile, shopFacts } from '@/lib/features/evidence/reads/fouling';
import { coilBelief, unitEvidence } from '@/lib/features/evidence/reads/evidence';
import { unitFiles } from '@/lib/features/evidence/reads/findings-history';
import { visitHistory } from '@/lib/features/evidence/reads/unit-visits';
import { tasksOfUnit } from '@/lib/features/equipment/reads/units';
import { DEFAULT_POLICY } from '@/lib/core/intervals';
import { useDatabase } from '../../support/database';
import { findingRow, haveOneUnit, readingRow, unitRow, visitRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-06-15T18:00:00Z');
const DAY = 86_400_000;
const ago = (days: number) => new Date(now.getTime() - days * DAY);

/** A unit put on file a year ago, and visits to it so many days ago, each with a look at its coil. */
async function begun(looks: [days: number, grade: 'bare' | 'filmed' | 'furred' | 'matted' | 'packed'][] = []) {
  const { db } = database;
  const have = await haveOneUnit(db, { unit: { createdAt: ago(365) }, person: { name: 'Nell Ash' } });
  const visit = (days: number, over: object = {}) =>
    db.visit.create({ data: visitRow(have.kitchen.id, have.person.id, ago(days), 60, { status: 'done', closedAt: ago(days), ...over }) });
  const visits = [];
  for (const [days, grade] of looks) {
    const v = await visit(days);
    visits.push(v);
    await db.finding.create({ data: findingRow(v.id, have.unit.id, 'coil', grade, v.startsAt) });
  }
  const onFile = () => db.unit.findUniqueOrThrow({ where: { id: have.unit.id }, include: { kitchen: true } });
  const shown = async (all?: 'all') =>
    unitEvidence(db, await onFile(), now, {
      shop: await shopFacts(db),
      tasks: tasksOfUnit(db, have.unit.id),
      ...(all ? { visits: all } : {}),
    });
  return { ...have, db, visit, visits, onFile, shown };
}

describe('what is on file of a unit', () => {
  it('is of closed visits, as it stands corrected, on the kitchen’s days; the open one counts where it is the one asked about', async () => {
    const { db, unit, kitchen, visit } = await begun([[40, 'furred']]);
    // Ten in the evening of the first of June in Denver.
    const late = await visit(0, { startsAt: new Date('2026-06-02T04:00:00Z'), endsAt: new Date('2026-06-02T05:00:00Z') });
    await db.finding.create({ data: findingRow(late.id, unit.id, 'coil', 'filmed', late.startsAt, { supersededAt: now }) });
    await db.finding.create({ data: findingRow(late.id, unit.id, 'coil', 'matted', late.startsAt) });
    const open = await visit(0, { status: 'started', closedAt: null });
    await db.finding.create({ data: findingRow(open.id, unit.id, 'coil', 'packed', now) });
    await db.finding.create({ data: findingRow(open.id, unit.id, 'drain', 'blocked', now) });
    const grades = async (more: object = {}) =>
      (await unitFiles(db, { unitIds: [unit.id] }, more))[0]?.findings.map((f) => `${f.on} ${f.aspect} ${f.grade}`);
    expect(await grades()).toEqual(['2026-05-06 coil furred', '2026-06-01 coil matted']);
    expect(await grades({ withVisit: open.id })).toHaveLength(4);
    expect(await grades({ withVisit: open.id, coilOnly: true })).toEqual([
      '2026-05-06 coil furred',
      '2026-06-01 coil matted',
      '2026-06-15 coil packed',
    ]);
    const archived = await db.unit.create({ data: unitRow(kitchen.id, { name: 'A gone one', archivedAt: now }) });
    const ids = async (more: object = {}) => (await unitFiles(db, { kitchenId: kitchen.id }, more)).map((f) => f.unitId);
    expect(await ids()).toEqual([unit.id]);
    expect(await ids({ evenArchived: [archived.id] })).toEqual([archived.id, unit.id]);
    expect(await unitFiles(db, { kitchenIds: [] })).toEqual([]);
  });

  it('knows a trip of a day once, with the cause that was found, when it was washed through, and what changed for it', async () => {
    const { db, unit } = await begun();
    const event = (kind: 'high_pressure_trip' | 'washed_through' | 'fouls_more' | 'fouls_less', days: number, cause?: 'fan') =>
      db.unitEvent.create({ data: { unitId: unit.id, kind, at: ago(days), ...(cause ? { cause } : {}) } });
    await event('high_pressure_trip', 10, 'fan');
    await event('high_pressure_trip', 10);
    await event('high_pressure_trip', 30);
    await event('washed_through', 20);
    await event('washed_through', 20);
    await event('fouls_less', 8);
    await event('fouls_more', 9);
    const [file] = await unitFiles(db, { unitIds: [unit.id] });
    expect(file?.trips).toEqual([{ on: '2026-05-16', cause: null }, { on: '2026-06-05', cause: 'fan' }]); // prettier-ignore
    expect(file?.washed).toEqual(['2026-05-26']);
    expect(file?.changes).toEqual(expect.arrayContaining([{ on: '2026-06-06', said: 'more' }, { on: '2026-06-07', said: 'less' }])); // prettier-ignore
    expect(file?.startedOn).toBe('2025-06-15');
  });
});

describe('the evidence of a unit', () => {
  it('tells what was found, when and by whom, the newest first, and that there is more', async () => {
    const { db, unit, tasks, visits, visit, shown } = await begun(Array.from({ length: 11 }, (_, i) => [200 - 10 * i, 'furred']));
    const evidence = await shown();
    expect(evidence?.visits).toHaveLength(10);
    expect(evidence?.visits[0]).toMatchObject({
      id: visits.at(-1)?.id,
      on: '2026-03-07',
      technician: 'Nell Ash',
      outcome: null,
      done: [],
      readings: [],
    });
    expect(evidence?.visits[0]?.findings).toMatchObject([{ aspect: 'coil', grade: 'furred', phase: 'found' }]);
    expect(evidence?.moreVisits).toBe(true);
    const all = await shown('all');
    expect([all?.visits.length, all?.moreVisits]).toEqual([11, false]);
    expect(all?.grades).toHaveLength(11);
    expect(all?.fouling.evidence.grades).toBe(11);
    expect(all?.coil).toMatchObject({ rule: tasks[0]?.rule, dueOn: '2026-01-05' });
    expect([all?.latest, all?.readings, all?.cycle]).toEqual([null, [], null]);
    // One to another unit of the kitchen, one only booked: neither is of this unit's history.
    await visit(5);
    const booked = await visit(-5, { status: 'booked', closedAt: null });
    await db.visitTask.create({
      data: { visitId: booked.id, taskId: tasks[0]?.id ?? '', unitId: unit.id, outcome: 'planned', open: true },
    });
    expect((await visitHistory(db, unit.id, 'America/Denver', 20)).shown).toHaveLength(11);
    expect(await visitHistory(db, unit.id, 'America/Denver', 11)).toMatchObject({ more: false });
    const reading = await db.reading.create({ data: readingRow(unit.id, ago(100), { visitId: visits.at(-1)?.id ?? null }) });
    expect((await visitHistory(db, unit.id, 'America/Denver', 1)).shown[0]?.readings).toEqual([{ phase: 'before', estimate: null }]);
    await db.reading.update({ where: { id: reading.id }, data: { supersededAt: now } });
    expect((await visitHistory(db, unit.id, 'America/Denver', 1)).shown[0]?.readings).toEqual([]);
  });

  it('says that a coil met packed every month stands worse, and costs more, than one met bare as often', async () => {
    const days = [150, 120, 90, 60, 30];
    const bad = await (await begun(days.map((d) => [d, 'packed']))).shown();
    const good = await (await begun(days.map((d) => [d, 'bare']))).shown();
    expect(bad?.fouling.lnK.mean).toBeLessThan(good?.fouling.lnK.mean ?? -Infinity);
    expect(bad?.todayKwh?.value).toBeGreaterThan(good?.todayKwh?.value ?? Infinity);
    expect(bad?.todayMoney?.value).toBeCloseTo((bad?.todayKwh?.value ?? NaN) * 0.14, 9);
  });

  it('is none of a unit out of use', async () => {
    const { db, unit, shown, onFile } = await begun([[30, 'furred']]);
    expect(await shown()).not.toBeNull();
    await db.unit.update({ where: { id: unit.id }, data: { archivedAt: now } });
    expect(await shown()).toBeNull();
    expect(await coilBelief(db, await onFile(), await shopFacts(db))).toBeNull();
  });
});

it('without anything learned or said, the program’s own beliefs and policy stand; another model’s words are not heard', async () => {
  const { db } = database;
  const { kitchen, unit } = await begun();
  expect(await policyOnFile(db)).toEqual(DEFAULT_POLICY);
  const before = await fleetBelief(db);
  await db.fleetPrior.create({ data: { hyper: {}, modelVersion: 'an older one', fittedAt: now } });
  expect(await fleetBelief(db)).toEqual(before);
  const row = { unitId: unit.id, posterior: { message: [1, 2] }, ratePerDay: 0, rateSdPerDay: 1, evidenceCount: 0, modelVersion: 'm1' };
  await db.unitFouling.create({ data: row });
  expect([...(await kitchenMessages(db, kitchen.id, 'm1'))]).toEqual([[unit.id, { message: [1, 2] }]]);
  expect((await kitchenMessages(db, kitchen.id, 'm2')).size).toBe(0);
});
