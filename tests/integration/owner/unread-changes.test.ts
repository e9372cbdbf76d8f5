import { expect, it } from 'vitest';
import { ruleChanges, unreadChanges } from '@/lib/features/owner/reads/changes';
import { useDatabase } from '../../support/database';
import { haveOneUnit, taskRow, unitRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-11-27T12:00:00Z');

it('counts the changes that wait to be looked at as they are listed: none of a task or a unit out of use', async () => {
  const { db } = database;
  const { kitchen, tasks } = await haveOneUnit(db);
  const other = await db.unit.create({ data: unitRow(kitchen.id, { name: 'Other' }) });
  const gone = await db.task.create({ data: taskRow(other, { kindKey: 'coil_cleaning' }) });
  const change = (taskId: string, over: object = {}) => ({
    taskId, at: now, kind: 'evidence' as const, fromRule: 'FREQ=WEEKLY;INTERVAL=8', toRule: 'FREQ=WEEKLY;INTERVAL=6', reason: 'Test.', ...over,
  }); // prettier-ignore
  const ids = [...tasks.map((t) => t.id), gone.id];
  await db.ruleChange.createMany({ data: ids.flatMap((id) => [change(id), change(id)]) });
  await db.ruleChange.create({ data: change(gone.id, { kind: 'held' }) });
  const same = async (count: number) => {
    expect(await unreadChanges(db)).toBe(count);
    const all = await ruleChanges(db, { since: new Date(0), unreadOnly: true });
    expect(all).toHaveLength(count);
    // All of one moment, and by pages each once.
    expect(await ruleChanges(db, { since: new Date(0), unreadOnly: true, take: 2, after: all[1]?.id })).toEqual(all.slice(2, 4));
  };
  await same(8);
  await db.task.update({ where: { id: tasks[0]?.id ?? '' }, data: { active: false } });
  await same(6);
  await db.unit.update({ where: { id: other.id }, data: { archivedAt: now } });
  await db.task.update({ where: { id: gone.id }, data: { active: false } });
  await same(4);
});
