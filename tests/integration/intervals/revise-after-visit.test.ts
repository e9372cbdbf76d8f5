import type { Aspect, Grade } from '@/lib/core/findings/grades';
import { describe, expect, it } from 'vitest';
import { addDays, approximateWeeks, type LocalDate } from '@/lib/core/calendar';
import { unitFiles } from '@/lib/features/evidence/reads/findings-history';
import { reviseRulesAfterVisit } from '@/lib/features/intervals/verbs/revise-after-visit';
import { policyOnFile } from '@/lib/features/evidence/reads/fouling';
import { dueElsewhere } from '@/lib/features/intervals/reads/rule-changes';
import { openChangeQuestions } from '@/lib/features/intervals/reads/change-questions';
import { answerChange } from '@/lib/features/intervals/verbs/answer-change';
import { kitchenChanged } from '@/lib/features/intervals/verbs/kitchen-changed';
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
});
