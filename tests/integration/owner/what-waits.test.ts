import { beforeAll, describe, expect, it } from 'vitest';
import { foulingFilter } from '@/lib/core/owner/fouling-filter';
import { localDate } from '@/lib/core/calendar';
import { policyOnFile } from '@/lib/features/evidence/reads/fouling';
import { refitFleet } from '@/lib/features/intervals/verbs/refit-fleet';
import { whatIf } from '@/lib/features/intervals/verbs/what-if';
import { ruleChanges } from '@/lib/features/owner/reads/changes';
import { cleaningsSince } from '@/lib/features/owner/reads/cleanings';
import { coilsPastSaving, deadFans, openWork, recurrentDrains } from '@/lib/features/owner/reads/decisions';
import { foulingRanking, rankingChoices } from '@/lib/features/owner/reads/ranking';
import { foodWarnings, replayIsOld, replayOnFile } from '@/lib/features/owner/reads/replay';
import { warrantiesEnding } from '@/lib/features/owner/reads/shop-money';
import { exportRanking } from '@/lib/features/owner/verbs/export-ranking';
import { workOutReplay } from '@/lib/features/owner/verbs/work-out-replay';
import { useDatabase } from '../../support/database';
import {
  customerRow,
  findingRow,
  haveOneUnit,
  jobRow,
  kitchenRow,
  personRow,
  unitRow,
  visitRow,
  visitTaskRow,
} from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-06-15T18:00:00Z');
const TODAY = localDate('2026-06-15');
const DAY = 86_400_000;
const ago = (days: number) => new Date(now.getTime() - days * DAY);
let on: Awaited<ReturnType<typeof haveOneUnit>>;
beforeAll(async () => {
  on = await haveOneUnit(database.db, { kitchen: { name: 'Alder Grill' }, unit: { name: 'Freezer' }, person: { name: 'Nell Ash' } });
});
const visitOf = (kitchenId: string, at: Date) =>
  database.db.visit.create({ data: visitRow(kitchenId, on.person.id, at, 60, { status: 'started' }) });

describe('what waits for the owner’s word', () => {
  it('says how far the quote for it is, of open jobs that name it alone', async () => {
    const { db } = database;
    const [b, c] = await db.unit.createManyAndReturn({
      data: ['Beer box', 'Cake case'].map((name) => unitRow(on.kitchen.id, { name })),
    });
    const units = [on.unit, b ?? expect.fail(), c ?? expect.fail()];
    for (const [i, unit] of units.entries())
      for (const days of [60, 30]) {
        const visit = await visitOf(on.kitchen.id, new Date(ago(days).getTime() + i * 7_200_000));
        await db.finding.createMany({
          data: [
            findingRow(visit.id, unit.id, 'coil', 'packed', visit.startsAt, { phase: 'left' }),
            findingRow(visit.id, unit.id, 'condenser_fan', 'failed', visit.startsAt),
          ],
        });
      }
    const coils = async () => (await coilsPastSaving(db)).map((m) => [m.unit, m.quote]);
    const fans = async () => (await deadFans(db)).map((m) => [m.unit, m.quote]);
    expect(await coils()).toEqual([['Beer box', null], ['Cake case', null], ['Freezer', null]]); // prettier-ignore
    expect((await coilsPastSaving(db))[0]).toMatchObject({ kitchen: 'Alder Grill', customer: on.customer.name, grade: 'packed' });
    expect((await coilsPastSaving(db))[0]?.dates).toHaveLength(2);
    // The longest dead first.
    expect((await fans()).map(([unit]) => unit)).toEqual(['Freezer', 'Beer box', 'Cake case']);

    await db.job.create({ data: jobRow(on.unit, { what: 'New COIL for the freezer', needsQuote: true }) });
    await db.job.create({ data: jobRow(units[1]!, { what: 'Replace coil', needsQuote: true, state: 'quoted' }) });
    await db.job.create({
      data: jobRow(units[2]!, { what: 'Coil', needsQuote: true, state: 'done', closedAt: now, closedNote: 'Mended' }),
    });
    expect(await coils()).toEqual([['Beer box', 'sent'], ['Cake case', null], ['Freezer', 'wanted']]); // prettier-ignore
    expect((await fans()).map(([, quote]) => quote)).toEqual([null, null, null]);

    await db.unit.update({ where: { id: units[1]!.id }, data: { archivedAt: now } });
    expect((await coils()).map(([unit]) => unit)).toEqual(['Cake case', 'Freezer']);
    expect((await fans()).map(([unit]) => unit)).toEqual(['Freezer', 'Cake case']);
  });

  it('a drain is named once it stopped three times within a year, those with most stops first', async () => {
    const { db } = database;
    const stopped = async (name: string, days: number[]) => {
      const unit = await db.unit.create({ data: unitRow(on.kitchen.id, { name }) });
      for (const d of days) {
        const visit = await visitOf(on.kitchen.id, new Date(ago(d).getTime() + unit.name.length * 3_600_000 * 2));
        await db.finding.create({ data: findingRow(visit.id, unit.id, 'drain', 'blocked', visit.startsAt) });
      }
    };
    await stopped('A1', [10, 20, 31]);
    await stopped('B12', [11, 21, 32, 41]);
    await stopped('C123', [12, 22]);
    await stopped('D1234', [13, 370, 380]);
    expect((await recurrentDrains(db, now)).map((d) => [d.unit, d.times, d.dates.length])).toEqual([['B12', 4, 4], ['A1', 3, 3]]); // prettier-ignore
  });

  it('counts quotes that wait and jobs that want one, and names the late ones, the latest due last, of what is in use', async () => {
    const { db } = database;
    await db.job.deleteMany();
    const gone = await haveOneUnit(db, { kitchen: { archivedAt: now }, unit: { archivedAt: now } });
    const late = (unit: { id: string; kitchenId: string }, days: number, over: object = {}) =>
      db.job.create({
        data: jobRow(unit, { what: `Due ${days} days ago`, dueOn: new Date(`${ago(days).toISOString().slice(0, 10)}T00:00:00Z`), ...over }),
      });
    await late(on.unit, 2);
    await late(on.unit, 9, { needsQuote: true });
    await late(on.unit, 0);
    await late(on.unit, 5, { state: 'done', closedAt: now, closedNote: 'Mended' });
    await late(gone.unit, 7, { needsQuote: true });
    for (const unit of [on.unit, gone.unit]) await db.job.create({ data: jobRow(unit, { state: 'quoted', needsQuote: true }) });
    await db.job.create({ data: jobRow(on.unit, { state: 'looked_at', needsQuote: true }) });
    const work = await openWork(db, new Date(`${TODAY}T00:00:00Z`));
    expect(work.late.map((j) => j.what)).toEqual(['Due 9 days ago', 'Due 2 days ago']);
    expect(work.late[0]).toMatchObject({ unitId: on.unit.id, unit: { name: 'Freezer', kitchen: { name: 'Alder Grill' } } });
    expect([work.quotes, work.unquoted]).toEqual([1, 2]);
  });

  it('warranties that end stand soonest first, none of a unit that is gone', async () => {
    const { db } = database;
    const scrapped = await db.unit.create({ data: unitRow(on.kitchen.id, { name: 'Scrapped', archivedAt: now }) });
    const day = (text: string) => new Date(`${text}T00:00:00Z`);
    const row = (what: string, until: string, unitId = on.unit.id) => ({ unitId, what, until: day(until) });
    await db.warranty.createMany({
      data: [row('Fan', '2026-07-05'), row('Door', '2026-06-15'), row('Over', '2026-06-14'), row('Later', '2026-07-16'), row('Gone', '2026-06-20', scrapped.id)],
    }); // prettier-ignore
    const ending = await warrantiesEnding(db, day(TODAY), day('2026-07-15'));
    expect(ending.count).toBe(2);
    expect(ending.rows).toMatchObject([
      { what: 'Door', until: '2026-06-15', unit: { name: 'Freezer', kitchen: { name: 'Alder Grill' } } },
      { what: 'Fan', until: '2026-07-05' },
    ]);
  });
});

describe('changes to rules', () => {
  it('stand newest first with who made and who looked at them, narrowed by days', async () => {
    const { db } = database;
    const office = await db.user.create({ data: personRow({ name: 'Petra Dunn', role: 'dispatcher' }) });
    const task = on.tasks.find((t) => t.kindKey === 'coil_cleaning') ?? expect.fail();
    const row = { taskId: task.id, fromRule: 'FREQ=WEEKLY;INTERVAL=12', toRule: 'FREQ=WEEKLY;INTERVAL=8' };
    await db.ruleChange.createMany({
      data: [
        { ...row, at: ago(3), kind: 'edited', reason: 'Chef asked', byUserId: office.id },
        {
          ...row,
          at: ago(2),
          kind: 'evidence',
          reason: 'Fouls faster',
          review: 'accepted',
          reviewedById: on.person.id,
          reviewedAt: ago(1),
        },
        { ...row, at: ago(1), kind: 'evidence', reason: 'Faster still' },
      ],
    });
    const visit = await visitOf(on.kitchen.id, new Date(now.getTime() + 5 * DAY));
    await db.visitTask.create({ data: visitTaskRow(visit.id, task) });
    const all = await ruleChanges(db, { since: ago(10) });
    expect(all.map((c) => [c.reason, c.by, c.reviewedBy])).toEqual([
      ['Faster still', null, null],
      ['Fouls faster', null, 'Nell Ash'],
      ['Chef asked', 'Petra Dunn', null],
    ]);
    expect(all[0]).toMatchObject({
      task: { id: task.id, rule: task.rule, booked: true, locked: false },
      unit: { name: 'Freezer' },
      kitchen: { name: 'Alder Grill', customer: on.customer.name, timeZone: 'America/Denver' },
    });
    const reasons = async (over: object) => (await ruleChanges(db, { since: ago(10), ...over })).map((c) => c.reason);
    expect(await reasons({ unreadOnly: true })).toEqual(['Faster still']);
    expect(await reasons({ since: ago(2), until: ago(1) })).toEqual(['Fouls faster']);
    expect(await reasons({ take: 1 })).toEqual(['Faster still']);
    await db.visitTask.updateMany({ where: { visitId: visit.id }, data: { open: false, outcome: 'not_done', reason: 'Locked' } });
    expect((await ruleChanges(db, { since: ago(10) }))[0]?.task.booked).toBe(false);
  });
});

describe('the ranking of coils', () => {
  const page = { take: 10, skip: 0 };
  beforeAll(async () => {
    const { db } = database;
    const customer = await db.customer.create({ data: customerRow({ name: 'Zinc House' }) });
    const [oak, pine] = await db.kitchen.createManyAndReturn({
      data: [kitchenRow(customer.id, { name: 'Oak' }), kitchenRow(customer.id, { name: 'Pine' })],
    });
    if (!oak || !pine) return expect.fail();
    const unit = async (kitchenId: string, name: string, rate: number, over: object = {}, evidenceCount = 4) => {
      const { id } = await db.unit.create({ data: unitRow(kitchenId, { name, ...over }) });
      await db.unitFouling.create({
        data: { unitId: id, posterior: {}, ratePerDay: rate, rateSdPerDay: 0.0002, evidenceCount, modelVersion: 'test', asOf: now },
      });
      return id;
    };
    const fast = await unit(oak.id, '=Fast', 0.01, { placement: 'fryer', kind: 'prep_table' });
    await unit(oak.id, 'Slow', 0.002, { placement: 'bar', kind: 'ice_machine' });
    await unit(pine.id, 'Middle', 0.004, { placement: 'fryer', kind: 'ice_machine' });
    await unit(pine.id, 'Guessed', 0.5, {}, 0);
    await unit(pine.id, 'By water', 0.5, { condenserKind: 'water_cooled' });
    await unit(pine.id, 'Scrapped', 0.5, { archivedAt: now });
    // Nine in the evening of the first of June in Denver.
    const visit = await visitOf(oak.id, new Date('2026-06-02T03:00:00Z'));
    await db.finding.create({ data: findingRow(visit.id, fast, 'coil', 'furred', visit.startsAt, { byUserId: on.person.id }) });
  });
  const by = async (query: Record<string, string>, of = page) => {
    const { rows, total } = await foulingRanking(database.db, foulingFilter(query, TODAY), of);
    return { names: rows.map((r) => r.name), total, rows };
  };

  it('stands fastest first with the places that cannot be told apart; only coils looked at, that air cools, in use', async () => {
    const { rows, total } = await by({ by: 'unit' });
    expect(total).toBe(3);
    expect(rows.map((r) => [r.name, r.kitchen, r.customer, r.kind, r.placement, r.units, r.best, r.worst])).toEqual([
      ['=Fast', 'Oak', 'Zinc House', 'prep_table', 'fryer', 1, 1, 1],
      ['Middle', 'Pine', 'Zinc House', 'ice_machine', 'fryer', 1, 2, 2],
      ['Slow', 'Oak', 'Zinc House', 'ice_machine', 'bar', 1, 3, 3],
    ]);
    expect(await by({ by: 'unit' }, { take: 1, skip: 1 })).toMatchObject({ names: ['Middle'], total: 3, rows: [{ best: 2, worst: 2 }] });
  });

  it('is narrowed by kind, place, customer, and by who looked when, on the kitchen’s days', async () => {
    const names = async (query: Record<string, string>) => (await by({ by: 'unit', ...query })).names;
    expect(await names({ kind: 'ice_machine' })).toEqual(['Middle', 'Slow']);
    expect(await names({ place: 'fryer' })).toEqual(['=Fast', 'Middle']);
    expect(await names({ customer: on.customer.id })).toEqual([]);
    expect(await names({ who: on.person.id })).toEqual(['=Fast']);
    expect(await names({ who: on.customer.id })).toEqual([]);
    expect(await names({ from: '2026-06-01', until: '2026-06-01' })).toEqual(['=Fast']);
    expect(await names({ from: '2026-06-02', until: '2026-06-10' })).toEqual([]);
  });

  it('of kitchens is the mean of their coils, surer the more they are', async () => {
    const { rows, total } = await by({ by: 'kitchen', place: 'fryer' });
    expect(total).toBe(2);
    expect(rows).toMatchObject([{ name: 'Oak', kitchen: 'Oak', units: 1, kind: null, placement: null }, { name: 'Pine' }]);
    const oak = (await by({ by: 'kitchen', from: '2025-01-01' })).rows[0];
    expect(oak).toMatchObject({ name: 'Oak', units: 1, evidence: 4 });
    const both = (
      await by({ by: 'kitchen', customer: (await database.db.customer.findFirstOrThrow({ where: { name: 'Zinc House' } })).id })
    ).rows;
    expect(both.map((r) => [r.name, r.units, r.evidence])).toEqual([['Oak', 2, 8], ['Pine', 1, 4]]); // prettier-ignore
    expect(both[0]?.rate).toBeCloseTo(0.006, 9);
    expect(both[0]?.sd).toBeCloseTo(0.0002 / Math.SQRT2, 9);
  });

  it('is the same as a file, its loss in a month with its interval', async () => {
    const csv = (await exportRanking({ db: database.db, now }, { by: 'unit' })).split('\r\n');
    expect(csv).toHaveLength(5);
    expect(csv[0]).toMatch(/^\uFEFFplace from,place to,name,kitchen,/);
    // 1 - exp(-0.3) is 25.92 %.
    expect(csv[1]).toMatch(/^1,1,'=Fast,Oak,Zinc House,prep_table,fryer,1,4,25\.92,25\.\d\d,26\.\d\d,0\.01000,0\.000200$/);
  });

  it('can be narrowed to customers and technicians on file, by name', async () => {
    await database.db.customer.create({ data: customerRow({ name: 'Gone Ltd', archivedAt: now }) });
    const { customers, people } = await rankingChoices(database.db);
    const names = customers.map((c) => c.name);
    expect(names).toContain('Zinc House');
    expect(names).not.toContain('Gone Ltd');
    expect(names).toEqual(names.toSorted());
    expect(people.map((p) => p.name)).toContain('Nell Ash');
    expect(people.map((p) => p.name)).not.toContain('Petra Dunn');
  });
});

describe('the last year gone through again', () => {
  it('rests on days on which coils were cleaned, each once, by the kitchen’s clock', async () => {
    const { db } = database;
    const task = on.tasks.find((t) => t.kindKey === 'coil_cleaning') ?? expect.fail();
    const done = async (at: string, status: 'done' | 'started', outcome: 'done' | 'not_done') => {
      const startsAt = new Date(at);
      const over = status === 'done' ? { closedAt: startsAt, arrivedAt: startsAt } : {};
      const visit = await db.visit.create({ data: visitRow(on.kitchen.id, on.person.id, startsAt, 30, { status, ...over }) });
      const data = visitTaskRow(visit.id, task, { outcome, open: false, reason: outcome === 'done' ? '' : 'Locked' });
      await db.$transaction(async (tx) => {
        for (const phase of ['found', 'left'] as const)
          await tx.finding.create({ data: findingRow(visit.id, on.unit.id, 'coil', 'filmed', startsAt, { phase }) });
        for (const [aspect, grade] of [['ice', 'dry'], ['drain', 'runs']] as const) await tx.finding.create({ data: findingRow(visit.id, on.unit.id, aspect, grade, startsAt) }); // prettier-ignore
        await tx.visitTask.create({ data });
      });
    };
    // Ten in the evening of the third of March in Denver.
    await done('2026-03-04T05:00:00Z', 'done', 'done');
    await done('2026-03-03T20:00:00Z', 'done', 'done');
    await done('2026-05-01T18:00:00Z', 'done', 'done');
    await done('2026-05-03T18:00:00Z', 'done', 'not_done');
    await done('2026-05-05T18:00:00Z', 'started', 'done');
    expect((await cleaningsSince(db, localDate('2026-01-01'))).get(on.unit.id)).toEqual(['2026-03-03', '2026-05-01']);
    expect((await cleaningsSince(db, localDate('2026-04-01'))).get(on.unit.id)).toEqual(['2026-05-01']);
  });

  it('goes through the days between two cleanings of each coil in use, as the question of other settings does', async () => {
    const { db } = database;
    await db.unitFouling.deleteMany();
    await haveOneUnit(db);
    await refitFleet({ db, now });
    await workOutReplay({ db, now });
    const kept = await replayOnFile(db);
    // The two cleanings of before, 59 days apart, on one of the two.
    expect(kept?.replay).toMatchObject({ coils: 1, days: 59, plan: { cleanings: 1 } });
    expect(kept?.sampled).toBe(2);
    const { past } = await whatIf({ db, now }, await policyOnFile(db));
    expect(past?.calendarWeeks).toBe(kept?.calendarWeeks);
    expect(past?.calendar.cleanings).toBeCloseTo(kept?.replay?.calendar.cleanings ?? NaN, 9);
    expect(past?.calendar.money).toBeCloseTo(kept?.replay?.calendar.money ?? NaN, 6);
    expect(past?.asked.plan.hours).toBeCloseTo(kept?.replay?.plan.hours ?? NaN, 9);
    await db.ownerFigure.deleteMany();
  });

  it('is kept with its moment and its days, and is old after a day', async () => {
    const { db } = database;
    await db.unitFouling.deleteMany();
    expect([await replayOnFile(db), await replayIsOld(db, now)]).toEqual([null, true]);
    await db.shopSettings.update({ where: { id: 1 }, data: { currency: 'EUR' } });
    await db.taskKind.update({ where: { key: 'coil_cleaning' }, data: { defaultWeeks: 11 } });
    await workOutReplay({ db, now });
    expect(await replayOnFile(db)).toMatchObject({
      from: '2025-06-15',
      to: '2026-06-15',
      sampled: 0,
      currency: 'EUR',
      calendarWeeks: 11,
      at: now,
    });
    expect(await replayIsOld(db, new Date(now.getTime() + DAY))).toBe(false);
    expect(await replayIsOld(db, new Date(now.getTime() + DAY + 1))).toBe(true);
    await workOutReplay({ db, now: new Date(now.getTime() + 2 * DAY) });
    expect(await replayOnFile(db)).toMatchObject({ to: '2026-06-17' });
    expect(await db.ownerFigure.count()).toBe(1);
    expect(await foodWarnings(db, ago(365))).toBe(0);
  });
});
