import { describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { addTask } from '@/lib/features/tasks/verbs/add-task';
import { reviseRulesAfterVisit } from '@/lib/features/intervals/verbs/revise-after-visit';
import { markDone } from '@/lib/features/visits/verbs/mark-done';
import { useDatabase } from '../../support/database';
import { findingRow, haveOneUnit, visitRow, visitTaskRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-03-02T18:00:00Z');
const monday = (day: string) => new Date(`${day}T00:00:00Z`);

/** A coil cleaned every four weeks until the beginning of March, and the visit of its last date. */
async function haveLastVisit(rule = 'FREQ=WEEKLY;INTERVAL=4;UNTIL=20260303', anchor: 'calendar' | 'last_completed' = 'last_completed') {
  const { db } = database;
  const made = await haveOneUnit(db, {
    tasks: [
      {
        kindKey: 'coil_cleaning',
        rule,
        anchor,
        anchorDate: monday('2026-02-02'),
        lastDoneOn: monday('2026-02-02'),
        dueOn: monday('2026-03-02'),
      },
    ],
  });
  const task = made.tasks[0] ?? expect.fail('no task');
  const visit = await db.$transaction(async (tx) => {
    const row = await tx.visit.create({ data: visitRow(made.kitchen.id, made.person.id, now, 60, { status: 'done', closedAt: now }) });
    await tx.visitTask.create({ data: visitTaskRow(row.id, task, { outcome: 'done', open: false }) });
    const seen = [
      ['coil', 'packed'],
      ['ice', 'dry'],
      ['drain', 'runs'],
    ] as const;
    await tx.finding.createMany({ data: seen.map(([aspect, grade]) => findingRow(row.id, made.unit.id, aspect, grade, now)) });
    await tx.finding.create({ data: findingRow(row.id, made.unit.id, 'coil', 'bare', now, { phase: 'left' }) });
    return row;
  });
  const there = { visitId: visit.id, by: made.person.id, now };
  return { ...made, task, visit, done: () => markDone(db, [task.id], made.kitchen.timeZone, now, there) };
}
const read = (id: string) => database.db.task.findUniqueOrThrow({ where: { id }, include: { changes: true } });
const ended = {
  active: false,
  lastDoneOn: monday('2026-03-02'),
  changes: [{ kind: 'ended', reason: expect.stringContaining('The rule has ended'), toDueOn: null }],
};

describe('a rule whose last date is done', () => {
  it('comes due no more when its visit is closed, and says why once', async () => {
    const { task, visit, person, done } = await haveLastVisit();
    await done();
    expect(await read(task.id)).toMatchObject(ended);
    await done();
    await reviseRulesAfterVisit({ db: database.db, actor: null, now }, visit.id);
    expect(await read(task.id)).toMatchObject(ended);
    expect((await read(task.id)).changes).toMatchObject([{ visitId: visit.id, byUserId: person.id, fromDueOn: monday('2026-03-02') }]);
  });

  it('comes due no more when only the rules are brought up to date', async () => {
    const { task, visit } = await haveLastVisit();
    const { revisions } = await reviseRulesAfterVisit({ db: database.db, actor: null, now }, visit.id);
    expect(await read(task.id)).toMatchObject(ended);
    expect(revisions).toMatchObject([{ toDueOn: null, reason: expect.stringContaining('has ended') }]);
  });

  it('comes due no more when the number of times in a contract is used up', async () => {
    const { task, done } = await haveLastVisit('FREQ=WEEKLY;INTERVAL=4;COUNT=2', 'calendar');
    await done();
    expect(await read(task.id)).toMatchObject(ended);
  });

  it('comes due as before while a date is left', async () => {
    const { task, done } = await haveLastVisit('FREQ=WEEKLY;INTERVAL=4;UNTIL=20260401');
    await done();
    expect(await read(task.id)).toMatchObject({ active: true, dueOn: monday('2026-03-30'), changes: [] });
  });

  it('is given a new one by adding the task again, with its history', async () => {
    const { task, unit, done } = await haveLastVisit();
    await done();
    const input = { unitId: unit.id, kindKey: 'coil_cleaning', rule: 'FREQ=WEEKLY;INTERVAL=8', anchor: 'last_completed' } as const;
    const { taskId } = await addTask({ db: database.db, actor: null, now }, { ...input, firstDueOn: localDate('2026-04-27') });
    expect(taskId).toBe(task.id);
    expect(await read(taskId)).toMatchObject({ active: true, dueOn: monday('2026-04-27'), changes: [{ kind: 'ended' }] });
  });
});

it('work of an earlier day that comes in late leaves the last date where it is', async () => {
  const { db } = database;
  const made = await haveOneUnit(db, {
    tasks: [{ kindKey: 'drain_inspection', rule: 'FREQ=WEEKLY;INTERVAL=4', anchorDate: monday('2026-01-05'), dueOn: monday('2026-03-02') }],
  });
  const task = made.tasks[0] ?? expect.fail('no task');
  const visit = await db.visit.create({ data: visitRow(made.kitchen.id, made.person.id, now, 60) });
  const done = (leftAt: string) =>
    markDone(db, [task.id], made.kitchen.timeZone, new Date(leftAt), { visitId: visit.id, by: made.person.id, now });
  await done('2026-03-02T18:00:00Z');
  const after = await read(task.id);
  expect(after.lastDoneOn).toEqual(monday('2026-03-02'));
  // Closed on a tablet that was away for ten days.
  await done('2026-02-20T18:00:00Z');
  expect(await read(task.id)).toMatchObject({ lastDoneOn: after.lastDoneOn, dueOn: after.dueOn });
});
