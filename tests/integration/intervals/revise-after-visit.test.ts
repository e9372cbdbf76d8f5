import type { Aspect, Grade } from '@/lib/core/findings/grades';
import { describe, expect, it } from 'vitest';
import { addDays, approximateWeeks, type LocalDate } from '@/lib/core/calendar';
import { unitFiles } from '@/lib/features/evidence/reads/findings-history';
import { reviseRulesAfterVisit } from '@/lib/features/intervals/verbs/revise-after-visit';
import { policyOnFile } from '@/lib/features/evidence/reads/fouling';
import { dueElsewhere } from '@/lib/features/intervals/reads/rule-changes';
import { openChangeQuestions } from '@/lib/features/intervals/reads/change-questions';
import { acceptChanges } from '@/lib/features/intervals/verbs/accept-changes';
import { answerChange } from '@/lib/features/intervals/verbs/answer-change';
import { kitchenChanged } from '@/lib/features/intervals/verbs/kitchen-changed';
import { presentRules } from '@/lib/features/intervals/verbs/present-rules';
import { setPolicy } from '@/lib/features/intervals/verbs/set-policy';
import { coilsOnFile } from '@/lib/features/owner/reads/what-if';
import { visitsOnFile } from '@/lib/features/tablet/reads/visits-on-file';
import { whatIf } from '@/lib/features/intervals/verbs/what-if';
import { findingRow, haveOneUnit, unitRow, visitRow, visitTaskRow } from '@/tests/support/factories';
import { useDatabase } from '@/tests/support/database';

const database = useDatabase();
type Have = Awaited<ReturnType<typeof haveOneUnit>>;
type Grades = { coil: string; ice?: string; drain?: string; left?: string };
const iso = (d: Date) => d.toISOString().slice(0, 10);

/** A closed visit of that day that did all the unit's tasks and found these grades. */
async function visited(
  { kitchen, unit, person, tasks }: Have,
  on: string,
  { coil, ice = 'dry', drain = 'runs', left = 'bare' }: Grades,
  done = tasks,
) {
  const { db } = database;
  const at = new Date(`${on}T16:00:00Z`);
  return db.$transaction(async (tx) => {
    const visit = await tx.visit.create({ data: visitRow(kitchen.id, person.id, at, 60, { status: 'done', closedAt: at }) });
    await tx.visitTask.createMany({ data: done.map((t) => visitTaskRow(visit.id, t, { outcome: 'done', open: false })) });
    await tx.finding.createMany({
      data: [
        ['coil', coil],
        ['ice', ice],
        ['drain', drain],
      ].map(([aspect, grade]) => findingRow(visit.id, unit.id, aspect as Aspect, grade as Grade, at)),
    });
    await tx.finding.create({ data: findingRow(visit.id, unit.id, 'coil', left as Grade, at, { phase: 'left' }) });
    return visit;
  });
}
const close = (visit: { id: string; startsAt: Date }) =>
  reviseRulesAfterVisit({ db: database.db, actor: null, now: new Date(visit.startsAt.getTime() + 3600_000) }, visit.id);
const coilTask = (have: Have) =>
  database.db.task.findFirstOrThrow({
    where: { unitId: have.unit.id, kindKey: 'coil_cleaning' },
    include: { changes: { orderBy: { at: 'asc' } } },
  });

it('what plain cleaning leaves is said on the tablet at the coil, and no more once it came off', async () => {
  const have = await haveOneUnit(database.db);
  const said = async (visitId: string) =>
    (await visitsOnFile(database.db, [visitId], null))[0]?.units.find((u) => u.id === have.unit.id)?.oldDeposit;
  let last = '';
  for (let n = 0; n < 6; n++) {
    const visit = await visited(have, addDays('2025-06-02' as LocalDate, 45 * n), { coil: 'matted', left: 'furred' });
    await close(visit);
    last = visit.id;
  }
  expect(await said(last)).toMatch(/^Even just cleaned, this condenser has lost \d+ % .*wash/);
  for (let n = 6; n < 9; n++) {
    const visit = await visited(have, addDays('2025-06-02' as LocalDate, 45 * n), { coil: 'bare' });
    await close(visit);
    last = visit.id;
  }
  expect(await said(last)).toBeNull();
});

describe('rules after a visit', () => {
  it('tightens the rule of a packed coil, says why, and calls somebody back', async () => {
    const have = await haveOneUnit(database.db);
    await close(await visited(have, '2026-01-05', { coil: 'furred' }));
    const before = await coilTask(have);
    const visit = await visited(have, '2026-03-08', { coil: 'packed' });
    const { revisions, jobIds } = await close(visit);
    const task = await coilTask(have);
    expect(approximateWeeks(task.rule)).toBeLessThan(approximateWeeks(before.rule));
    expect(iso(task.lastDoneOn as Date)).toBe('2026-03-08');
    expect(iso(task.dueOn)).toBe(addDays('2026-03-08' as LocalDate, 7 * approximateWeeks(task.rule)));
    const change = task.changes.at(-1);
    expect(change).toMatchObject({ kind: 'evidence', visitId: visit.id, fromRule: before.rule, toRule: task.rule });
    expect(change?.reason).toMatch(/^Packed at 62 days; .* so cleaning moves from .* weeks? to .*\.$/);
    expect(revisions.find((r) => r.kindKey === 'coil_cleaning')?.reason).toBe(change?.reason);
    expect(await database.db.job.findMany({ where: { id: { in: jobIds } } })).toMatchObject([
      { what: 'Go back: coil was packed', urgency: 'week', state: 'asked', foundVisitId: visit.id },
    ]);
    const fouling = await database.db.unitFouling.findUniqueOrThrow({ where: { unitId: have.unit.id } });
    expect(fouling.ratePerDay).toBeGreaterThan(0);
    expect(fouling.evidenceCount).toBe(6);
  });

  it('changes nothing more when it is run a second time', async () => {
    const have = await haveOneUnit(database.db);
    const visit = await visited(have, '2026-02-02', { coil: 'packed', drain: 'blocked' });
    await close(visit);
    const tasks = () =>
      database.db.task.findMany({ where: { unitId: have.unit.id }, orderBy: { kindKey: 'asc' }, include: { changes: true } });
    const first = await tasks();
    expect(first.flatMap((t) => t.changes).length).toBeGreaterThan(0);
    expect((await close(visit)).jobIds).toEqual([]);
    expect(await tasks()).toEqual(first);
    expect(await database.db.job.count({ where: { units: { some: { unitId: have.unit.id } } } })).toBe(2);
  });

  it('goes through the last year again under other settings, and knows when somebody comes to the kitchen anyway', async () => {
    const have = await haveOneUnit(database.db);
    await close(await visited(have, '2026-01-05', { coil: 'furred' }));
    await close(await visited(have, '2026-03-09', { coil: 'matted' }));
    const past = async () =>
      (await whatIf({ db: database.db, now: new Date('2026-04-01T12:00:00Z') }, await policyOnFile(database.db))).past;
    const after = await past();
    await database.db.unit.update({ where: { id: have.unit.id }, data: { archivedAt: new Date('2026-04-01T12:00:00Z') } });
    const without = (await past())?.asked ?? { coils: 0, days: 0, plan: { cleanings: 0 } };
    await database.db.unit.update({ where: { id: have.unit.id }, data: { archivedAt: null } });
    expect(after?.asked.coils).toBe(without.coils + 1);
    expect(after?.asked.days).toBe(without.days + 63);
    expect(after?.asked.plan.cleanings).toBe(without.plan.cleanings + 1);
    expect(after?.calendar.cleanings).toBeCloseTo((after?.asked.days ?? NaN) / 7 / (after?.calendarWeeks ?? NaN), 6);
    const task = await coilTask(have);
    const elsewhere = (unitIds: string[]) => dueElsewhere(database.db, have.kitchen.id, unitIds, '2026-03-09' as LocalDate);
    expect(await elsewhere([])).toContain(iso(task.dueOn));
    expect(await elsewhere([have.unit.id])).toEqual([]);
  });

  it('writes down what was expected of a coil from what was known before, once, and follows what was found', async () => {
    const have = await haveOneUnit(database.db);
    await close(await visited(have, '2026-01-05', { coil: 'furred' }));
    const visit = await visited(have, '2026-03-08', { coil: 'packed' });
    await close(visit);
    const kept = () => database.db.foresight.findUniqueOrThrow({ where: { visitId_unitId: { visitId: visit.id, unitId: have.unit.id } } });
    const first = await kept();
    expect(first).toMatchObject({ found: 'packed', evidence: 3 });
    expect(first.chances.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 6);
    // Somebody puts the grade right: what was expected stays word for word.
    await database.db.finding.updateMany({ where: { visitId: visit.id, aspect: 'coil', phase: 'found' }, data: { grade: 'bare' } });
    await close(visit);
    expect(await kept()).toEqual({ ...first, found: 'bare' });
  });

  it('counts from the cleaning that the unit was put on file with, and does not forget it', async () => {
    const have = await haveOneUnit(database.db, { tasks: [{ kindKey: 'coil_cleaning', lastDoneOn: new Date('2026-01-05T00:00:00Z') }] });
    await close(await visited(have, '2026-03-08', { coil: 'packed' }));
    const reasons = (await coilTask(have)).changes.map((c) => c.reason);
    expect(reasons).toMatchObject([expect.stringMatching(/^Packed at 62 days; /)]);
    const file = async () => (await unitFiles(database.db, { unitIds: [have.unit.id] }))[0]?.cleanings;
    expect(await file()).toEqual(['2026-01-05', '2026-03-08']);
    await close(await visited(have, '2026-04-08', { coil: 'furred' }));
    expect(await file()).toEqual(['2026-01-05', '2026-03-08', '2026-04-08']);
  });

  it('leaves a locked rule alone and tells what it would have done', async () => {
    const have = await haveOneUnit(database.db, { tasks: [{ kindKey: 'coil_cleaning', locked: true }] });
    const { revisions } = await close(await visited(have, '2026-02-02', { coil: 'packed' }));
    const task = await coilTask(have);
    expect(task.rule).toBe('FREQ=WEEKLY;INTERVAL=12');
    expect(task.changes).toMatchObject([
      {
        kind: 'held',
        fromRule: task.rule,
        toRule: task.rule,
        reason: expect.stringMatching(/^Locked, so nothing moved\. Without that: packed/),
      },
    ]);
    expect(iso(task.dueOn)).toBe('2026-04-27');
    expect(revisions).toMatchObject([{ reason: null, held: expect.stringContaining('so cleaning moves from 12 weeks to') }]);
  });

  it('keeps the dates of a contract and says that they are too slack', async () => {
    const have = await haveOneUnit(database.db, {
      tasks: [
        { kindKey: 'coil_cleaning', anchor: 'calendar', rule: 'FREQ=MONTHLY;INTERVAL=3', anchorDate: new Date('2026-02-02T00:00:00Z') },
      ],
    });
    const { revisions } = await close(await visited(have, '2026-02-02', { coil: 'packed' }));
    const task = await coilTask(have);
    expect(task.rule).toBe('FREQ=MONTHLY;INTERVAL=3');
    expect(iso(task.dueOn)).toBe('2026-05-02');
    expect(revisions[0]?.held).toContain('Packed');
    expect(task.changes).toMatchObject([{ kind: 'held', reason: expect.stringMatching(/^On the contract’s dates/) }]);
  });

  it('moves only the date of work that no evidence speaks of', async () => {
    const have = await haveOneUnit(database.db, {
      unit: { kind: 'ice_machine' },
      tasks: [{ kindKey: 'ice_machine_cleaning', rule: 'FREQ=WEEKLY;INTERVAL=26' }],
    });
    await close(await visited(have, '2026-02-02', { coil: 'bare' }));
    const [task] = await database.db.task.findMany({ where: { unitId: have.unit.id }, include: { changes: true } });
    expect(task).toMatchObject({ rule: 'FREQ=WEEKLY;INTERVAL=26', changes: [] });
    expect(iso(task?.dueOn as Date)).toBe('2026-08-03');
  });

  it('does not move work that was not done', async () => {
    const have = await haveOneUnit(database.db);
    const drain = have.tasks.filter((t) => t.kindKey === 'drain_inspection');
    await close(await visited(have, '2026-02-02', { coil: 'filmed' }, drain));
    const coil = await coilTask(have);
    expect(coil.lastDoneOn).toBeNull();
    expect(iso(coil.dueOn)).toBe('2026-01-05');
  });

  it('lets a neighbour in the same kitchen hear the news', async () => {
    const have = await haveOneUnit(database.db);
    const other = await database.db.unit.create({ data: unitRow(have.kitchen.id, { name: 'Neighbour' }) });
    await close(await visited(have, '2026-01-05', { coil: 'bare' }));
    const rate = async () => (await database.db.unitFouling.findUniqueOrThrow({ where: { unitId: other.id } })).ratePerDay;
    const calm = await rate();
    await close(await visited(have, '2026-01-25', { coil: 'packed' }));
    expect(await rate()).toBeGreaterThan(calm);
  });
});

describe('a kitchen that changed', () => {
  it('is believed to foul faster at once; only a trip has a cause', async () => {
    const { db } = database;
    const have = await haveOneUnit(db);
    await close(await visited(have, '2026-03-02', { coil: 'filmed' }));
    const rate = async () => (await db.unitFouling.findUniqueOrThrow({ where: { unitId: have.unit.id } })).ratePerDay;
    const before = await rate();
    const ctx = { db, actor: null, now: new Date('2026-03-20T12:00:00Z') };
    const change = { kitchenId: have.kitchen.id, breathes: 'more', what: 'Second fryer' } as const;
    await expect(kitchenChanged(ctx, { ...change, since: '2026-03-25' as LocalDate })).rejects.toMatchObject({ code: 'invalid' });
    await expect(kitchenChanged(ctx, { ...change, since: '2026-03-10' as LocalDate })).resolves.toEqual({ units: 1 });
    expect((await rate()) / before).toBeGreaterThan(1.5);
    await expect(db.unitEvent.create({ data: { unitId: have.unit.id, kind: 'note', cause: 'fan', at: ctx.now } })).rejects.toThrow(
      /unit_event_cause_of_trip/,
    );
  });

  it('is asked of the office once its coils come out otherwise, and follows the answer', async () => {
    const { db } = database;
    const have = await haveOneUnit(db);
    const mine = async () =>
      (await openChangeQuestions(db, { role: 'dispatcher', userId: '' }, 50)).find((q) => q.kitchenId === have.kitchen.id);
    const see = async (on: string, coil: string) => close(await visited(have, on, { coil }));
    for (const on of ['2026-01-05', '2026-02-02', '2026-03-02', '2026-03-30', '2026-04-27']) await see(on, 'filmed');
    expect(await mine()).toBeUndefined();
    await see('2026-05-25', 'packed');
    await see('2026-06-08', 'packed');
    const question = await mine();
    expect(question).toMatchObject({ since: '2026-05-25', breathes: 'more', looks: 2 });
    const ctx = { db, actor: null, now: new Date('2026-06-09T12:00:00Z') };
    const rate = async () => (await db.unitFouling.findUniqueOrThrow({ where: { unitId: have.unit.id } })).ratePerDay;
    const before = await rate();
    await answerChange(ctx, { id: question?.id ?? '', answer: 'equipment' });
    expect(await rate()).toBeGreaterThan(before);
    expect(await mine()).toBeUndefined();
    await expect(answerChange(ctx, { id: question?.id ?? '', answer: 'nothing' })).rejects.toMatchObject({ code: 'conflict' });
    // What was answered is not asked again of the same looks, and one kitchen is asked once at a time.
    await close(await visited(have, '2026-06-22', { coil: 'matted' }));
    expect(await mine()).toBeUndefined();
    const row = { kitchenId: have.kitchen.id, since: ctx.now, breathes: 'less', looks: 1, askedAt: ctx.now } as const;
    await db.changeQuestion.create({ data: row });
    await expect(db.changeQuestion.create({ data: row })).rejects.toMatchObject({ code: 'P2002' });
  });

  it('is told by whoever may, of a kitchen on file with a unit in it; what is asked goes, the longest first, to whoever may answer', async () => {
    const { db } = database;
    await db.changeQuestion.deleteMany();
    const [one, two, three] = [await haveOneUnit(db), await haveOneUnit(db), await haveOneUnit(db)];
    const office = { role: 'dispatcher', userId: one.person.id } as const;
    const ask = (have: Have, day: number, over: object = {}) =>
      db.changeQuestion.create({
        data: { kitchenId: have.kitchen.id, since: new Date('2026-04-30'), breathes: 'less', looks: 3, askedAt: new Date(Date.UTC(2026, 4, day)), ...over },
      }); // prettier-ignore
    const [young, old] = [await ask(one, 9), await ask(two, 5)];
    await ask(three, 1);
    await db.kitchen.update({ where: { id: three.kitchen.id }, data: { archivedAt: new Date() } });
    expect(await openChangeQuestions(db, office, 10)).toEqual([
      { id: old.id, since: '2026-04-30', breathes: 'less', looks: 3, kitchenId: two.kitchen.id, kitchen: two.kitchen.name, customer: two.customer.name },
      expect.objectContaining({ id: young.id }),
    ]); // prettier-ignore
    expect((await openChangeQuestions(db, office, 1)).map((q) => q.id)).toEqual([old.id]);
    expect(await openChangeQuestions(db, { role: 'technician', userId: '' }, 10)).toEqual([]);

    const now = new Date('2026-05-20T12:00:00Z');
    const ctx = { db, actor: { userId: one.person.id }, now };
    // Nothing changed: written down, and the coils are believed as before.
    const rateOf = async (have: Have) => (await db.unitFouling.findUnique({ where: { unitId: have.unit.id } }))?.ratePerDay;
    const before = await rateOf(two);
    await answerChange(ctx, { id: old.id, answer: 'nothing' });
    expect(await rateOf(two)).toBe(before);
    expect(await db.unitEvent.count({ where: { unitId: two.unit.id } })).toBe(0);
    expect(await db.changeQuestion.findUnique({ where: { id: old.id } })).toMatchObject({
      answer: 'nothing',
      answeredAt: now,
      answeredById: one.person.id,
    });
    expect(await db.auditEntry.findFirst({ where: { entityId: two.kitchen.id } })).toMatchObject({
      action: 'kitchen.change_denied', entity: 'Kitchen', userId: one.person.id, at: now, detail: { since: '2026-04-30', breathes: 'less' },
    }); // prettier-ignore
    await expect(answerChange(ctx, { id: crypto.randomUUID(), answer: 'nothing' })).rejects.toMatchObject({ code: 'not_found' });

    // Whoever tells of it unasked has answered too.
    const change = { kitchenId: one.kitchen.id, breathes: 'less', what: 'Fryer gone', since: '2026-05-10' as LocalDate } as const;
    await db.unit.create({ data: unitRow(one.kitchen.id, { name: 'Neighbour' }) });
    await db.unit.create({ data: unitRow(one.kitchen.id, { name: 'Out of use', archivedAt: now }) });
    expect(await kitchenChanged(ctx, change)).toEqual({ units: 2 });
    expect(await db.changeQuestion.findUnique({ where: { id: young.id } })).toMatchObject({ answer: 'other', answeredById: one.person.id });
    // From midnight at the kitchen, in Denver.
    expect(await db.unitEvent.findFirst({ where: { unitId: one.unit.id } })).toMatchObject({
      kind: 'fouls_less', note: 'Fryer gone', byUserId: one.person.id, at: new Date('2026-05-10T06:00:00Z'),
    }); // prettier-ignore
    expect(await db.auditEntry.findFirst({ where: { entityId: one.kitchen.id } })).toMatchObject({
      action: 'kitchen.change_told', detail: { since: '2026-05-10', breathes: 'less', what: 'Fryer gone' },
    }); // prettier-ignore
    await expect(kitchenChanged(ctx, { ...change, kitchenId: crypto.randomUUID() })).rejects.toMatchObject({ code: 'not_found' });
    await db.unit.updateMany({ where: { kitchenId: two.kitchen.id }, data: { archivedAt: now } });
    await expect(kitchenChanged(ctx, { ...change, kitchenId: two.kitchen.id })).rejects.toMatchObject({ code: 'invalid' });
  });
});

describe('the shop’s policy', () => {
  const now = new Date('2026-04-01T12:00:00Z');

  it('is kept with who changed what, only as it was last seen', async () => {
    const { db } = database;
    const { person } = await haveOneUnit(db);
    const ctx = { db, actor: { userId: person.id }, now };
    const before = await presentRules(ctx);
    const { updatedAt } = await db.shopSettings.findUniqueOrThrow({ where: { id: 1 } });
    const stale = new Date(updatedAt.getTime() - 1).toISOString();
    await expect(setPolicy(ctx, { ...before, cleaningCost: 75 }, stale)).rejects.toMatchObject({ code: 'conflict' });
    expect(await presentRules(ctx)).toEqual(before);
    await setPolicy(ctx, { ...before, cleaningCost: 75 }, updatedAt.toISOString());
    expect(await presentRules(ctx)).toEqual({ ...before, cleaningCost: 75 });
    expect(await db.auditEntry.findFirst({ where: { action: 'shop.policy' } })).toMatchObject({
      entity: 'ShopSettings',
      entityId: '1',
      userId: person.id,
      detail: { changed: { cleaningCost: [60, 75] } },
    });
    await db.shopSettings.update({ where: { id: 1 }, data: { policy: { v: 1 } } });
  });

  it('asked for, moves intervals the way its costs say before anything is saved; a locked rule and the contract’s dates stay', async () => {
    const { db } = database;
    await db.unit.updateMany({ data: { archivedAt: now } });
    const seen = async (grade: 'matted' | 'filmed', task: object = {}) => {
      const have = await haveOneUnit(db, { tasks: [{ kindKey: 'coil_cleaning', rule: 'FREQ=WEEKLY;INTERVAL=9', ...task }] });
      for (const on of ['2025-12-01', '2026-01-12', '2026-02-23']) await close(await visited(have, on, { coil: grade }));
      return have;
    };
    const [dirty, clean] = [await seen('matted'), await seen('filmed')];
    const [locked, dated] = [await seen('matted', { locked: true }), await seen('matted', { anchor: 'calendar' })];
    const rules = await policyOnFile(db);
    const same = await whatIf({ db, now }, rules);
    expect(same).toMatchObject({ moved: [], movedCount: 0, scale: 1, now: { units: 4 }, asked: { units: 4 } });
    expect(same.asked).toEqual(same.now);
    expect(same.now.costPerMonth.lo).toBeLessThanOrEqual(same.now.costPerMonth.value);
    // Cleaning at six times the price, and breakdowns that cost next to nothing.
    const asked = await whatIf({ db, now }, { ...rules, cleaningCost: 6 * rules.cleaningCost, tripCost: 6 * rules.tripCost, failureCost: 1, comebackCost: 1, risk: 0.9, packedRisk: 0.9 }); // prettier-ignore
    expect(asked.now).toEqual(same.now);
    expect(asked.movedCount).toBe(asked.moved.length);
    expect(asked.moved.length).toBeGreaterThan(0);
    const names = [dirty, clean].map((h) => h.unit.id);
    for (const m of asked.moved) {
      expect(names).toContain(m.unitId);
      expect(m.to).toBeGreaterThan(m.from);
    }
    expect(asked.asked.cleaningsPerMonth).toBeLessThan(asked.now.cleaningsPerMonth);
    const far = asked.moved.map((m) => Math.abs(Math.log(m.to / m.from)));
    expect(far).toEqual(far.toSorted((a, b) => b - a));
    expect(asked.moved.map((m) => m.unitId)).not.toContain(locked.unit.id);
    expect(asked.moved.map((m) => m.unitId)).not.toContain(dated.unit.id);
    // Nothing was saved, and the dirtier coil is cleaned oftener than the cleaner one.
    expect(await policyOnFile(db)).toEqual(rules);
    const { coils, scale } = await coilsOnFile(db);
    expect([coils.length, scale]).toEqual([4, 1]);
    expect(coils.find((c) => c.unitId === locked.unit.id)).toMatchObject({
      held: true,
      weeks: 9,
      minWeeks: 2,
      maxWeeks: 52,
      kitchen: locked.kitchen.name,
    });
    expect(coils.find((c) => c.unitId === dirty.unit.id)).toMatchObject({ held: false, unit: 'Reach-in', conditions: { priceKnown: true, energyPricePerKwh: 0.14, currency: 'USD' } }); // prettier-ignore
  });

  it('an owner keeps a group of changes at once: of those that evidence made and nobody looked at', async () => {
    const { db } = database;
    const { person, tasks } = await haveOneUnit(db);
    const row = {
      taskId: tasks[0]?.id ?? expect.fail(),
      at: now,
      fromRule: 'FREQ=WEEKLY;INTERVAL=12',
      toRule: 'FREQ=WEEKLY;INTERVAL=8',
      reason: 'Test.',
    };
    const made = await db.ruleChange.createManyAndReturn({
      data: [
        { ...row, kind: 'evidence' },
        { ...row, kind: 'evidence', review: 'accepted', reviewedAt: new Date('2026-03-01') },
        { ...row, kind: 'edited' },
        { ...row, kind: 'evidence' },
      ],
    });
    const ids = made.map((c) => c.id);
    const ctx = { db, actor: { userId: person.id }, now };
    expect(await acceptChanges(ctx, { changeIds: ids.slice(0, 3) })).toBe(1);
    const after = await db.ruleChange.findMany({ where: { id: { in: ids } } });
    const of = (i: number) => after.find((c) => c.id === ids[i]);
    expect(of(0)).toMatchObject({ review: 'accepted', reviewedById: person.id, reviewedAt: now });
    expect(of(1)).toMatchObject({ reviewedById: null, reviewedAt: new Date('2026-03-01') });
    expect([of(2)?.review, of(3)?.review]).toEqual([null, null]);
    expect(await db.auditEntry.findFirst({ where: { action: 'rules.accepted' } })).toMatchObject({
      entity: 'RuleChange',
      userId: person.id,
      detail: { count: 1 },
    });
  });
});
