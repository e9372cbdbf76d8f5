import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { fleetBelief, kitchenMessages, policyOnFile, shopFacts } from '@/lib/features/evidence/reads/fouling';
import { coilBelief, unitEvidence } from '@/lib/features/evidence/reads/evidence';
import { unitFiles } from '@/lib/features/evidence/reads/findings-history';
import { visitHistory } from '@/lib/features/evidence/reads/unit-visits';
import { tasksOfUnit } from '@/lib/features/equipment/reads/units';
import { DEFAULT_POLICY } from '@/lib/core/intervals';
import { STORED_FLEET_BELIEF } from '@/lib/database/stored/fouling';
import { STORED_POLICY } from '@/lib/database/stored/shop';
import { useDatabase } from '../../support/database';
import { findingRow, haveOneUnit, readingRow, unitRow, visitRow, visitTaskRow } from '../../support/factories';

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

/** What a cleaning asks for before it counts, second by second. */
const leftClean = (visitId: string, unitId: string, at: Date) => [
  findingRow(visitId, unitId, 'ice', 'dry', at),
  findingRow(visitId, unitId, 'drain', 'runs', new Date(at.getTime() + 1000)),
  findingRow(visitId, unitId, 'coil', 'bare', new Date(at.getTime() + 2000), { phase: 'left' }),
];

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

  it('comes in the order of names, of the kitchens asked for', async () => {
    const { db, kitchen, unit } = await begun();
    const more = await db.unit.createManyAndReturn({ data: ['Walk-in', 'Blast chiller'].map((name) => unitRow(kitchen.id, { name })) }); // prettier-ignore
    const [walkIn, blast] = more.map((u) => u.id);
    const elsewhere = await begun();
    const idsOf = async (which: Parameters<typeof unitFiles>[1]) => (await unitFiles(db, which)).map((f) => f.unitId);
    expect(await idsOf({ kitchenId: kitchen.id })).toEqual([blast, unit.id, walkIn]);
    // Of one name in both kitchens.
    const twins = [unit.id, elsewhere.unit.id].toSorted();
    expect(await idsOf({ kitchenIds: [kitchen.id, elsewhere.kitchen.id] })).toEqual([blast, ...twins, walkIn]);
    expect(await idsOf({ unitIds: [walkIn ?? '', blast ?? ''] })).toEqual([blast, walkIn]);
    expect((await unitFiles(db, { unitIds: [walkIn ?? ''] }))[0]).toMatchObject({ kitchenId: kitchen.id, trips: [], washed: [], changes: [], cleanings: [], readings: [] }); // prettier-ignore
  });

  it('knows each day on which its coil was cleaned: by us, as it came to us, and as its task says', async () => {
    const { db, unit, tasks, visit, visits } = await begun([[100, 'matted'], [50, 'matted']]); // prettier-ignore
    const task = (kind: string) => tasks.find((t) => t.kindKey === kind) ?? expect.fail();
    const [coil, drain] = [task('coil_cleaning'), task('drain_inspection')];
    const did = (visitId: string, of: typeof coil, outcome: 'done' | 'not_done') =>
      db.visitTask.create({
        data: visitTaskRow(visitId, of, { outcome, open: false, ...(outcome === 'not_done' ? { reason: 'No time' } : {}) }),
      });
    const [first, second] = visits;
    const open = await visit(0, { status: 'started', closedAt: null });
    await db.finding.createMany({ data: [...leftClean(first?.id ?? '', unit.id, now), ...leftClean(open.id, unit.id, now)] });
    await db.finding.create({ data: findingRow(open.id, unit.id, 'coil', 'furred', now) });
    await db.finding.create({ data: findingRow(second?.id ?? '', unit.id, 'drain', 'runs', now) });
    await did(first?.id ?? '', coil, 'done');
    await did(second?.id ?? '', coil, 'not_done');
    await did(second?.id ?? '', drain, 'done');
    await did(open.id, coil, 'done');
    const cleanings = async (more = {}) => (await unitFiles(db, { unitIds: [unit.id] }, more))[0]?.cleanings;
    expect(await cleanings()).toEqual(['2026-03-07']);
    expect(await cleanings({ withVisit: open.id })).toEqual(['2026-03-07', '2026-06-15']);
    // Nine in the evening of 1 January in Denver; and what a task says is one day with what was done on it.
    await db.unitEvent.create({ data: { unitId: unit.id, kind: 'coil_cleaned_before', at: new Date('2026-01-02T04:00:00Z') } });
    await db.task.update({ where: { id: coil.id }, data: { lastDoneOn: new Date('2026-03-07') } });
    await db.task.update({ where: { id: drain.id }, data: { lastDoneOn: new Date('2026-04-04') } });
    expect(await cleanings()).toEqual(['2026-01-01', '2026-03-07']);
    await db.task.update({ where: { id: coil.id }, data: { lastDoneOn: new Date('2026-05-05') } });
    expect(await cleanings()).toEqual(['2026-01-01', '2026-03-07', '2026-05-05']);
  });

  it('begins with the oldest look on file where that is from before the unit was', async () => {
    const { db, unit, visit, visits } = await begun([[400, 'bare']]);
    const started = async (more = {}) => (await unitFiles(db, { unitIds: [unit.id] }, more))[0]?.startedOn;
    expect(await started({ coilOnly: true })).toBe('2025-06-15');
    // As found, of what may fail; as left it is no look.
    await db.finding.create({ data: findingRow(visits[0]?.id ?? '', unit.id, 'drain', 'runs', ago(400), { phase: 'left' }) });
    expect(await started({ coilOnly: true })).toBe('2025-06-15');
    const older = await visit(500);
    await db.finding.create({ data: findingRow(older.id, unit.id, 'drain', 'runs', ago(500)) });
    await db.finding.create({ data: findingRow(visits[0]?.id ?? '', unit.id, 'drain', 'slow', ago(400)) });
    expect(await started({ coilOnly: true })).toBe('2025-01-31');
  });

  it('leaves out what was read before the circuit was opened and charged, what was replaced, and a visit to be estimated anew', async () => {
    const { db, unit, person, visit } = await begun();
    const [first, second] = [await visit(80), await visit(40)];
    const readOn = async (days: number, visitId: string | null, phase: 'before' | 'after' = 'before', over: object = {}) => {
      const reading = await db.reading.create({ data: readingRow(unit.id, ago(days), { visitId, phase, ...over }) });
      const result = { v: 1, status: 'ok', designRiseK: { value: 12, lo: 11, hi: 13, unit: 'K' } };
      await db.estimate.create({ data: { readingId: reading.id, unitId: unit.id, at: ago(days), status: 'ok', verdict: 'fine', lnK: 0, lnKSd: 0.1, modelVersion: 'm', result } }); // prettier-ignore
    };
    await readOn(80, first.id);
    await readOn(60, null);
    await readOn(40, second.id);
    await readOn(39.9, second.id, 'after');
    await readOn(30, null, 'before', { supersededAt: now });
    await db.finding.create({ data: findingRow(second.id, unit.id, 'condenser_fan', 'failed', ago(40)) });
    await db.finding.create({ data: findingRow(second.id, unit.id, 'condenser_fan', 'sound', ago(40), { phase: 'left' }) });
    const facts = async (more = {}) => (await unitFiles(db, { unitIds: [unit.id] }, more))[0]?.readings;
    const days = async (more = {}) => (await facts(more))?.map((r) => r.on);
    expect(await days()).toEqual(['2026-03-27', '2026-04-16', '2026-05-06', '2026-05-06']);
    expect((await facts())?.[0]).toEqual({ at: ago(80).getTime(), on: '2026-03-27', phase: 'before', verdict: 'fine', designRiseK: { value: 12, lo: 11, hi: 13, unit: 'K' }, leading: null, fanFailed: false }); // prettier-ignore
    // The fan was dead as found, and ran when the coil was read again.
    expect((await facts())?.map((r) => r.fanFailed)).toEqual([false, false, true, false]);
    expect(await days({ withoutReadings: second.id })).toEqual(['2026-03-27', '2026-04-16']);
    const charge = async (daysAgo: number, over: object) => {
      const record = await db.sealedRecord.create({ data: { id: randomUUID(), unitId: unit.id, begunAt: ago(daysAgo) } });
      await db.sealedStep.create({ data: { id: randomUUID(), recordId: record.id, visitId: first.id, unitId: unit.id, step: 'charge', at: ago(daysAgo), byUserId: person.id, overruledBy: 'R. Boss', overruledWhy: 'Alone there', ...over } }); // prettier-ignore
    };
    const work = { step: 'charge', v: 1 };
    await charge(20, { skippedWhy: 'Kept its gas' });
    await charge(20, { work, supersededAt: now });
    await charge(20, { step: 'open', work });
    expect(await days()).toHaveLength(4);
    await charge(70, { work });
    expect(await days()).toEqual(['2026-04-16', '2026-05-06', '2026-05-06']);
    await charge(50, { work });
    expect(await days()).toEqual(['2026-05-06', '2026-05-06']);
  });
});

describe('the evidence of a unit', () => {
  it('says why a coil met packed leaves its date, once, until its date moves', async () => {
    const { db, unit, tasks, shown, visit } = await begun([[60, 'packed'], [30, 'packed'], [2, 'packed']]); // prettier-ignore
    const coil = tasks.find((t) => t.kindKey === 'coil_cleaning') ?? expect.fail();
    // As short as the shop goes: nothing can move.
    await db.task.update({ where: { id: coil.id }, data: { rule: 'FREQ=WEEKLY;INTERVAL=2', lastDoneOn: ago(2), dueOn: ago(-12) } });
    const stays = async () => (await shown())?.stays;
    const why = expect.stringMatching(/^Packed on 13 Jun 2026.* so cleaning stays at every 2 weeks\.$/);
    expect(await stays()).toEqual(why);
    const change = (at: Date) => db.ruleChange.create({ data: { taskId: coil.id, at, kind: 'evidence', fromRule: 'FREQ=WEEKLY;INTERVAL=3', toRule: 'FREQ=WEEKLY;INTERVAL=2', reason: 'x' } }); // prettier-ignore
    await change(ago(10));
    expect(await stays()).toEqual(why);
    // It moved by what was found then, which its history says.
    const { id } = await change(ago(2));
    expect(await stays()).toBeNull();
    await db.ruleChange.delete({ where: { id } });
    // As it was left is not as it was found; a look since then that found it open is.
    const last = await visit(1);
    await db.finding.create({ data: findingRow(last.id, unit.id, 'coil', 'bare', ago(1), { phase: 'left' }) });
    await db.finding.create({ data: findingRow(last.id, unit.id, 'drain', 'runs', ago(1)) });
    expect(await stays()).toEqual(why);
    await db.finding.create({ data: findingRow(last.id, unit.id, 'coil', 'filmed', ago(1)) });
    expect(await stays()).toBeNull();
  });

  it('tells its limits by its own machine, its cleanings and its price; no money where none is on file', async () => {
    const { db, kitchen, tasks, shown } = await begun([[100, 'matted'], [50, 'packed']]); // prettier-ignore
    const coil = tasks.find((t) => t.kindKey === 'coil_cleaning') ?? expect.fail();
    await db.task.update({ where: { id: coil.id }, data: { lastDoneOn: new Date('2026-03-07') } });
    const one = await shown();
    expect(one?.today).toBe('2026-06-15');
    expect(one?.cleanings).toEqual(['2026-03-07']);
    expect(one?.fouling.lastCleanedOn).toBe('2026-03-07');
    expect(one?.ownLimits?.limits.length).toBeGreaterThan(0);
    expect(one?.limitDates.map((d) => d.limit.name).toSorted()).toEqual(one?.ownLimits?.limits.map((l) => l.name).toSorted());
    await db.kitchen.update({ where: { id: kitchen.id }, data: { energyPricePerKwh: null } });
    const unpriced = await shown();
    expect(unpriced?.todayKwh?.value).toBeGreaterThan(0);
    expect(unpriced?.todayMoney).toBeNull();
    expect(unpriced?.conditions.priceKnown).toBe(false);
    // The shop's own price stands in for a kitchen's.
    await db.shopSettings.update({ where: { id: 1 }, data: { energyPricePerKwh: 0.3 } });
    const shops = await shown();
    await db.shopSettings.update({ where: { id: 1 }, data: { energyPricePerKwh: null } });
    expect(shops?.todayMoney?.value).toBeCloseTo((shops?.todayKwh?.value ?? NaN) * 0.3, 9);
  });

  it('tells of each visit what became of it there, what was done, and why something was not looked at', async () => {
    const { db, unit, tasks, visit, kitchen, person } = await begun();
    const started = await visit(1, { status: 'started', closedAt: null, arrivedAt: ago(0) });
    const cancelled = await visit(3, { status: 'cancelled', closedAt: null, cancelReason: 'Closed' });
    const done = await visit(7);
    const later = new Date(done.startsAt.getTime() + 60_000);
    const latest = new Date(later.getTime() + 60_000);
    await db.finding.createMany({ data: leftClean(done.id, unit.id, latest) });
    for (const v of [started, cancelled, done]) await db.finding.create({ data: findingRow(v.id, unit.id, 'coil', 'furred', v.startsAt) });
    for (const t of tasks.toReversed()) await db.visitTask.create({ data: visitTaskRow(done.id, t, { outcome: t.kindKey === 'evaporator_inspection' ? 'not_done' : 'done', open: false, reason: t.kindKey === 'evaporator_inspection' ? 'Iced' : '' }) }); // prettier-ignore
    await db.unitVisit.create({ data: { visitId: done.id, unitId: unit.id, outcome: 'could_not_reach', reason: 'Boxes' } });
    await db.finding.create({
      data: findingRow(done.id, unit.id, 'gasket', null, later, { notLookedWhy: 'Door blocked', note: 'Ask Ilse' }),
    });
    // Another unit's work on the same visit is none of this one's.
    const other = await db.unit.create({ data: unitRow(kitchen.id, { name: 'Other' }) });
    await db.finding.create({ data: findingRow(done.id, other.id, 'coil', 'bare', later) });
    await db.unitVisit.create({ data: { visitId: done.id, unitId: other.id, outcome: 'seen' } });
    const { shown, more } = await visitHistory(db, unit.id, 'America/Denver', 5);
    expect(more).toBe(false);
    expect(shown.map((v) => [v.id, v.on])).toEqual([[started.id, '2026-06-15'], [done.id, '2026-06-08']]); // prettier-ignore
    const labels = await db.taskKind.findMany({ where: { key: { in: ['coil_cleaning', 'drain_inspection'] } }, orderBy: { sort: 'asc' } });
    expect(shown[1]).toEqual({
      id: done.id,
      on: '2026-06-08',
      technician: person.name,
      outcome: { outcome: 'could_not_reach', reason: 'Boxes' },
      done: labels.map((k) => k.label),
      findings: [
        { aspect: 'coil', grade: 'furred', phase: 'found', notLookedWhy: '', note: '' },
        { aspect: 'gasket', grade: null, phase: 'found', notLookedWhy: 'Door blocked', note: 'Ask Ilse' },
        { aspect: 'ice', grade: 'dry', phase: 'found', notLookedWhy: '', note: '' },
        { aspect: 'drain', grade: 'runs', phase: 'found', notLookedWhy: '', note: '' },
        { aspect: 'coil', grade: 'bare', phase: 'left', notLookedWhy: '', note: '' },
      ],
      readings: [],
    });
  });

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
  await db.unit.update({ where: { id: unit.id }, data: { archivedAt: now } });
  expect((await kitchenMessages(db, kitchen.id, 'm1')).size).toBe(0);
});

it('what the fleet taught last stands, by this model or one made from it; what the shop has set stands among the rest', async () => {
  const { db } = database;
  const { fouling, failures } = await fleetBelief(db);
  const taught = (risk: string, daysAgo: number) =>
    db.fleetPrior.create({
      data: { hyper: STORED_FLEET_BELIEF.write({ fouling: { ...fouling, modelVersion: risk }, failures }), modelVersion: risk, fittedAt: ago(daysAgo) },
    }); // prettier-ignore
  await taught(fouling.modelVersion, 20);
  await taught(`${fouling.modelVersion}+spring`, 10);
  await taught(`${fouling.modelVersion}+winter`, 15);
  await taught(`${fouling.modelVersion}0`, 5);
  expect((await fleetBelief(db)).fouling.modelVersion).toBe(`${fouling.modelVersion}+spring`);
  await db.fleetPrior.deleteMany();
  const before = await db.shopSettings.findUniqueOrThrow({ where: { id: 1 } });
  await db.shopSettings.update({ where: { id: 1 }, data: { policy: STORED_POLICY.write({ cleaningCost: 77 }), currency: 'CAD', overdueLimitDays: 9, energyPricePerKwh: 0.2 } }); // prettier-ignore
  expect(await shopFacts(db)).toEqual({
    policy: { ...DEFAULT_POLICY, cleaningCost: 77 },
    currency: 'CAD',
    energyPricePerKwh: 0.2,
    overdueLimitDays: 9,
  });
  await db.shopSettings.update({ where: { id: 1 }, data: { policy: before.policy ?? {}, currency: before.currency, overdueLimitDays: before.overdueLimitDays, energyPricePerKwh: null } }); // prettier-ignore
});
