import { describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { addTask } from '@/lib/features/tasks/verbs/add-task';
import { editRule } from '@/lib/features/tasks/verbs/edit-rule';
import { lockRule } from '@/lib/features/tasks/verbs/lock-rule';
import { removeTask } from '@/lib/features/tasks/verbs/remove-task';
import { reviewChange } from '@/lib/features/intervals/verbs/review-change';
import { addTaskKind, editTaskKind } from '@/lib/features/tasks/verbs/task-kinds';
import { ensureDefaultTasks } from '@/lib/features/tasks/verbs/ensure-default-tasks';
import { taskKinds } from '@/lib/features/tasks/reads/task-kinds';
import { tasksOfUnit } from '@/lib/features/equipment/reads/units';
import { haveOneUnit, unitRow, visitRow, visitTaskRow } from '../../support/factories';
import { useDatabase } from '../../support/database';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');

async function haveTask(over: { lastDoneOn?: Date } = {}) {
  const made = await haveOneUnit(database.db, {
    tasks: [
      {
        kindKey: 'coil_cleaning',
        rule: 'FREQ=WEEKLY;INTERVAL=12',
        lastDoneOn: over.lastDoneOn ?? new Date('2026-02-03T00:00:00Z'),
        dueOn: new Date('2026-04-28T00:00:00Z'),
      },
    ],
  });
  const task = made.tasks[0] ?? expect.fail('no task');
  const ctx = { db: database.db, actor: { userId: made.person.id }, now };
  return { ...made, task, ctx };
}
const read = (id: string) => database.db.task.findUniqueOrThrow({ where: { id } });
const dateOf = async (id: string) => (await read(id)).dueOn.toISOString().slice(0, 10);
const rule = { anchor: 'last_completed', minWeeks: 2, maxWeeks: 26, reason: 'Contract asks for it', firstDueOn: undefined } as const;

describe('a rule changed by hand', () => {
  it('moves the due date, counted from the last visit, and keeps the old rule with the reason', async () => {
    const { task, ctx, unit } = await haveTask();
    const { dueOn } = await editRule(ctx, { taskId: task.id, version: 1, rule: 'FREQ=WEEKLY;INTERVAL=4;BYDAY=TU', ...rule });
    expect(dueOn).toBe('2026-03-03');
    expect(await dateOf(task.id)).toBe('2026-03-03');
    const [seen] = (await tasksOfUnit(database.db, unit.id)).tasks;
    expect(seen?.changes).toMatchObject([
      {
        kind: 'edited',
        fromRule: 'FREQ=WEEKLY;INTERVAL=12',
        toRule: 'FREQ=WEEKLY;INTERVAL=4;BYDAY=TU',
        fromDueOn: '2026-04-28',
        toDueOn: '2026-03-03',
        reason: 'Contract asks for it',
        by: 'Someone',
      },
    ]);
    expect(seen).toMatchObject({ minWeeks: 2, maxWeeks: 26, version: 2 });
  });

  it('may be anchored on the calendar', async () => {
    const { task, ctx } = await haveTask();
    await editRule(ctx, {
      taskId: task.id,
      version: 1,
      ...rule,
      rule: 'FREQ=MONTHLY;BYDAY=1TU',
      anchor: 'calendar',
      firstDueOn: localDate('2026-01-06'),
    });
    expect(await dateOf(task.id)).toBe('2026-03-03');
  });

  it('is refused when it has no date left, and nothing changes', async () => {
    const { task, ctx } = await haveTask();
    await expect(editRule(ctx, { taskId: task.id, version: 1, ...rule, rule: 'FREQ=WEEKLY;UNTIL=20250101' })).rejects.toMatchObject({
      code: 'invalid',
      field: 'ruleText',
    });
    expect(await read(task.id)).toMatchObject({ rule: 'FREQ=WEEKLY;INTERVAL=12', version: 1 });
    expect(await database.db.ruleChange.count({ where: { taskId: task.id } })).toBe(0);
  });

  it('tells a stale edit', async () => {
    const { task, ctx } = await haveTask();
    await lockRule(ctx, { taskId: task.id, version: 1, lock: 'lock', reason: 'Warranty' });
    await expect(editRule(ctx, { taskId: task.id, version: 1, ...rule, rule: 'FREQ=WEEKLY;INTERVAL=4' })).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('Someone changed this task while this form was open (locked)'),
    });
  });

  it('is locked and unlocked with a reason each', async () => {
    const { task, ctx } = await haveTask();
    await lockRule(ctx, { taskId: task.id, version: 1, lock: 'lock', reason: 'Warranty' });
    expect((await read(task.id)).locked).toBe(true);
    await lockRule(ctx, { taskId: task.id, version: 2, lock: 'unlock', reason: 'Warranty over' });
    expect((await read(task.id)).locked).toBe(false);
    const kinds = await database.db.ruleChange.findMany({
      where: { taskId: task.id },
      orderBy: { kind: 'asc' },
      select: { kind: true, reason: true },
    });
    expect(kinds).toEqual([
      { kind: 'locked', reason: 'Warranty' },
      { kind: 'unlocked', reason: 'Warranty over' },
    ]);
  });
});

describe('a change that the findings made', () => {
  const byEvidence = (taskId: string) =>
    database.db.ruleChange.create({
      data: {
        taskId,
        at: now,
        kind: 'evidence',
        fromRule: 'FREQ=WEEKLY;INTERVAL=20',
        toRule: 'FREQ=WEEKLY;INTERVAL=12',
        reason: 'Loses 1.2 % a week.',
      },
    });

  it('is kept or overruled once; overruled goes back to the rule before it', async () => {
    const { task, ctx } = await haveTask();
    const kept = await byEvidence(task.id);
    await reviewChange(ctx, { changeId: kept.id, verdict: 'accepted' });
    await expect(reviewChange(ctx, { changeId: kept.id, verdict: 'overruled', reason: 'No' })).rejects.toMatchObject({ code: 'conflict' });
    const second = await byEvidence(task.id);
    await reviewChange(ctx, { changeId: second.id, verdict: 'overruled', reason: 'Fryer is gone' });
    expect((await read(task.id)).rule).toBe('FREQ=WEEKLY;INTERVAL=20');
    expect(await database.db.ruleChange.findUniqueOrThrow({ where: { id: second.id } })).toMatchObject({ review: 'overruled' });
    expect(await database.db.ruleChange.count({ where: { taskId: task.id, kind: 'overruled' } })).toBe(1);
  });

  it('is not overruled over a newer rule', async () => {
    const { task, ctx } = await haveTask();
    const change = await byEvidence(task.id);
    await editRule(ctx, { taskId: task.id, version: 1, ...rule, rule: 'FREQ=WEEKLY;INTERVAL=3' });
    await expect(reviewChange(ctx, { changeId: change.id, verdict: 'overruled', reason: 'No' })).rejects.toMatchObject({
      code: 'conflict',
    });
    // The review was not written either.
    expect((await database.db.ruleChange.findUniqueOrThrow({ where: { id: change.id } })).review).toBeNull();
  });
});

describe('tasks of a unit', () => {
  it('are added, once each, and come back with their history after being taken off', async () => {
    const { task, ctx, unit } = await haveTask();
    const wanted = {
      unitId: unit.id,
      kindKey: 'coil_cleaning',
      rule: 'FREQ=WEEKLY;INTERVAL=6',
      anchor: 'last_completed',
      firstDueOn: undefined,
    } as const;
    await expect(addTask(ctx, wanted)).rejects.toMatchObject({ code: 'conflict', field: 'kindKey' });
    await removeTask(ctx, { taskId: task.id, version: 1, reason: 'Not ours' });
    expect((await read(task.id)).active).toBe(false);
    await addTask(ctx, wanted);
    const back = await read(task.id);
    expect(back).toMatchObject({ active: true, rule: 'FREQ=WEEKLY;INTERVAL=6' });
    expect(await dateOf(task.id)).toBe('2026-03-17');
    expect(await database.db.ruleChange.count({ where: { taskId: task.id } })).toBe(1);
  });

  it('are not added to what is not there, is out of use, or is no kind of task; who added one is on file', async () => {
    const { ctx, unit, person, task } = await haveTask();
    const wanted = { unitId: unit.id, kindKey: 'drain_inspection', rule: 'FREQ=WEEKLY;INTERVAL=6', anchor: 'calendar', firstDueOn: undefined } as const; // prettier-ignore
    const refused = (over: object) => expect(addTask(ctx, { ...wanted, ...over })).rejects;
    await refused({ unitId: task.id }).toMatchObject({ code: 'not_found', message: 'That unit is not on file.' });
    await refused({ kindKey: 'waxing' }).toMatchObject({
      code: 'not_found',
      message: 'That kind of task is not on file.',
      field: 'kindKey',
    });
    const { taskId } = await addTask(ctx, wanted);
    const [line] = await database.db.auditEntry.findMany({ where: { entityId: taskId } });
    expect(line).toMatchObject({ action: 'task.added', entity: 'Task', detail: { rule: wanted.rule }, userId: person.id });
    await database.db.unit.update({ where: { id: unit.id }, data: { archivedAt: now, archivedWhy: 'Sold' } });
    await refused({ kindKey: 'evaporator_inspection' }).toMatchObject({
      code: 'conflict',
      message: 'That unit is out of use. Put it back in use first.',
    });
  });

  it('that are usual come in the order of their kinds; a water side check keeps the id that a tablet gave its coil', async () => {
    const { ctx, kitchen, unit } = await haveTask();
    await expect(ensureDefaultTasks(ctx, kitchen.id)).rejects.toMatchObject({
      code: 'not_found',
      message: 'That unit is not on file.',
    });
    const made = await ensureDefaultTasks(ctx, unit.id);
    const kinds = new Map((await taskKinds(database.db)).map((k) => [k.key, k.sort]));
    const sorts = await Promise.all(made.map(async (id) => kinds.get((await read(id)).kindKey) ?? -1));
    expect(sorts.length).toBeGreaterThan(1);
    expect(sorts).toEqual([...sorts].sort((a, b) => a - b));
    const cooled = await database.db.unit.create({ data: unitRow(kitchen.id, { name: 'Ice maker', condenserKind: 'water_cooled' }) });
    const given = crypto.randomUUID();
    expect(await ensureDefaultTasks(ctx, cooled.id, {}, { coil_cleaning: given })).toContain(given);
    expect((await read(given)).kindKey).toBe('water_side_check');
  });

  it('are not taken off while they stand on an open visit', async () => {
    const { task, ctx, kitchen, person, unit } = await haveTask();
    const visit = await database.db.visit.create({ data: visitRow(kitchen.id, person.id, now, 60) });
    await database.db.visitTask.create({ data: visitTaskRow(visit.id, { id: task.id, unitId: unit.id }) });
    await expect(removeTask(ctx, { taskId: task.id, version: 1, reason: 'Not ours' })).rejects.toMatchObject({ code: 'conflict' });
  });

  it('are taken off beside others that stand on a visit, and once their own is closed', async () => {
    const { task, ctx, kitchen, person, unit } = await haveTask();
    const { taskId } = await addTask(ctx, { unitId: unit.id, kindKey: 'drain_inspection', rule: 'FREQ=WEEKLY', anchor: 'calendar', firstDueOn: undefined }); // prettier-ignore
    const visit = await database.db.visit.create({ data: visitRow(kitchen.id, person.id, now, 60) });
    await database.db.visitTask.create({ data: visitTaskRow(visit.id, { id: task.id, unitId: unit.id }) });
    await removeTask(ctx, { taskId, version: 1, reason: 'Not ours' });
    expect((await read(taskId)).active).toBe(false);
    await database.db.visitTask.updateMany({ where: { taskId: task.id }, data: { open: false } });
    await removeTask(ctx, { taskId: task.id, version: 1, reason: 'Not ours' });
    expect((await read(task.id)).active).toBe(false);
  });

  it('may be of a kind the shop adds itself', async () => {
    const { ctx, unit } = await haveTask();
    const kind = { label: 'Water filter, change', minutes: 10, lowSide: false, defaultWeeks: 26, minWeeks: 13, maxWeeks: 52 };
    const { key } = await addTaskKind(ctx, kind);
    expect(key).toBe('water_filter_change');
    await expect(addTaskKind(ctx, kind)).rejects.toMatchObject({ code: 'conflict', field: 'label' });
    await addTask(ctx, {
      unitId: unit.id,
      kindKey: key,
      rule: 'FREQ=WEEKLY;INTERVAL=26',
      anchor: 'calendar',
      firstDueOn: localDate('2026-06-01'),
    });
    expect((await tasksOfUnit(database.db, unit.id)).tasks.find((t) => t.kindKey === key)).toMatchObject({
      label: 'Water filter, change',
      dueOn: '2026-06-01',
      minWeeks: 13,
    });
    await editTaskKind(ctx, { key, ...kind, active: false });
    await expect(
      addTask(ctx, { unitId: unit.id, kindKey: key, rule: 'FREQ=WEEKLY', anchor: 'calendar', firstDueOn: undefined }),
    ).rejects.toMatchObject({ code: 'not_found' });
  });

  it('of such a kind come last, are named in letters, and are offered while the kind is active', async () => {
    const { ctx } = await haveTask();
    const kind = { minutes: 10, lowSide: false, defaultWeeks: 26, minWeeks: 13, maxWeeks: 52 };
    await expect(addTaskKind(ctx, { ...kind, label: '冷 !!' })).rejects.toMatchObject({
      code: 'invalid',
      message: 'Use letters in the name.',
      field: 'label',
    });
    const { key } = await addTaskKind(ctx, { ...kind, label: 'Gasket, wipe' });
    const keys = async (o?: { activeOnly: boolean }) => (await taskKinds(database.db, o)).map((k) => k.key);
    expect((await keys()).at(-1)).toBe(key);
    await editTaskKind(ctx, { key, ...kind, label: 'Gasket, wipe', active: false });
    expect(await keys()).toContain(key);
    expect(await keys({ activeOnly: true })).not.toContain(key);
    const lines = await database.db.auditEntry.findMany({ where: { entityId: key }, orderBy: { at: 'asc' } });
    expect(lines.map((l) => [l.action, l.entity])).toEqual(
      expect.arrayContaining([
        ['task_kind.added', 'TaskKind'],
        ['task_kind.edited', 'TaskKind'],
      ]),
    );
    await expect(editTaskKind(ctx, { key: 'waxing', ...kind, label: 'Wax', active: true })).rejects.toMatchObject({
      code: 'not_found',
      message: 'That kind of task is not on file.',
    });
  });
});
