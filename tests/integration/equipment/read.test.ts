import { beforeAll, describe, expect, it } from 'vitest';
import { stoppedGrades, type Aspect, type Grade } from '@/lib/core/findings/grades';
import { jobsOfUnit, standingTrouble } from '@/lib/features/equipment/reads/trouble';
import { anyUnit, tasksOfUnit, unitInKitchen, unitPage } from '@/lib/features/equipment/reads/units';
import { archiveUnit, restoreUnit } from '@/lib/features/equipment/verbs/archive-unit';
import { freeTag } from '@/lib/features/equipment/verbs/free-tag';
import { readLabels } from '@/lib/features/equipment/verbs/read-labels';
import { shortCode } from '@/lib/core/tablet/short-code';
import { useDatabase } from '../../support/database';
import { findingRow, haveOneUnit, jobRow, unitRow, visitRow, visitTaskRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');
const at = (days: number) => new Date(now.getTime() + days * 86_400_000);
const NOBODY = '00000000-0000-4000-8000-000000000000';
let made: Awaited<ReturnType<typeof haveOneUnit>>;

beforeAll(async () => {
  made = await haveOneUnit(database.db, { unit: { name: 'Walk-in' } });
});

describe('a unit’s page', () => {
  it('says where it stands, what it came in place of, and what came in its place', async () => {
    const { db } = database;
    const newer = await db.unit.create({ data: unitRow(made.kitchen.id, { name: 'New walk-in', replacesId: made.unit.id }) });
    expect(await unitPage(db, made.unit.id)).toMatchObject({
      name: 'Walk-in',
      kitchen: { id: made.kitchen.id, customer: { id: made.customer.id, name: made.customer.name } },
      replaces: null,
      replacedBy: [{ id: newer.id, name: 'New walk-in' }],
      compressorMap: null,
    });
    expect((await unitPage(db, newer.id))?.replaces).toEqual({ id: made.unit.id, name: 'Walk-in' });
    expect(await unitPage(db, NOBODY)).toBeNull();
    expect((await unitInKitchen(db, made.unit.id))?.kitchen.id).toBe(made.kitchen.id);
    for (const id of [undefined, 'walk-in', NOBODY]) expect(await unitInKitchen(db, id)).toBeNull();
  });

  it('shows its tasks by the order of their kinds, those taken off last, each with the visit it stands on', async () => {
    const { db } = database;
    const [coil, drain] = made.tasks;
    if (!coil || !drain) throw new Error('no tasks');
    await db.task.update({ where: { id: coil.id }, data: { active: false } });
    const visit = await db.visit.create({ data: visitRow(made.kitchen.id, made.person.id, at(1), 60) });
    await db.visitTask.create({ data: visitTaskRow(visit.id, drain) });
    const { tasks, kinds } = await tasksOfUnit(db, made.unit.id);
    expect(tasks.map((t) => t.active)).toEqual([true, true, false]);
    expect(tasks.find((t) => t.id === drain.id)?.onVisit).toEqual({ id: visit.id, startsAt: at(1).getTime() });
    expect(tasks.filter((t) => t.onVisit === null)).toHaveLength(2);
    expect(tasks[0]).toMatchObject({ dueOn: '2026-01-05', anchorDate: '2026-01-05', lastDoneOn: null, locked: false, changes: [] });
    expect(kinds.map((k) => k.key)).toContain('coil_cleaning');
    await db.taskKind.updateMany({ where: { key: 'coil_cleaning' }, data: { active: false } });
    const after = await tasksOfUnit(db, made.unit.id);
    expect(after.kinds.map((k) => k.key)).not.toContain('coil_cleaning');
    expect(after.tasks.map((t) => t.kindKey)).toContain('coil_cleaning');
    await db.taskKind.updateMany({ where: { key: 'coil_cleaning' }, data: { active: true } });
  });

  it('names what stands wrong by the last look at each part, as it was left, and nothing that was put right', async () => {
    const { db } = database;
    const { unit, kitchen, person } = await haveOneUnit(db);
    const stopped = 'blocked';
    expect(stoppedGrades('drain')).toContain(stopped);
    // Those of one day are of one visit.
    const visits = new Map<number, string>();
    const look = async (aspect: Aspect, grade: Grade | null, days: number, over: Parameters<typeof findingRow>[5] = {}) => {
      const visitId = visits.get(days) ?? (await db.visit.create({ data: visitRow(kitchen.id, person.id, at(days), 60) })).id;
      visits.set(days, visitId);
      const why = { notLookedWhy: grade ? '' : 'Riveted shut' };
      return db.finding.create({ data: findingRow(visitId, unit.id, aspect, grade, at(days), { ...why, ...over }) });
    };
    const wrong = async () => (await standingTrouble(db, unit.id)).map((t) => `${t.aspect} ${t.grade}`);
    expect(await wrong()).toEqual([]);
    await look('condenser_fan', 'failed', -30);
    await look('drain', stopped, -29);
    expect(await wrong()).toEqual([`drain ${stopped}`, 'condenser_fan failed']);
    // Not looked at says nothing; left in order on the same visit says that it is.
    await look('condenser_fan', null, -20);
    await look('drain', 'runs', -29, { phase: 'left' });
    expect(await wrong()).toEqual(['condenser_fan failed']);
    const replaced = await look('condenser_fan', 'worn', -10, { supersededAt: now });
    expect(await wrong()).toEqual(['condenser_fan failed']);
    await db.finding.update({ where: { id: replaced.id }, data: { supersededAt: null } });
    expect(await wrong()).toEqual([]);
  });

  it('lists its open jobs with the first due first, and those settled last with by whom', async () => {
    const { db } = database;
    const { unit, person } = await haveOneUnit(db, { person: { name: 'Tova Lind' } });
    const put = (what: string, over: Parameters<typeof jobRow>[1] = {}) => db.job.create({ data: jobRow(unit, { what, ...over }) });
    await put('No day', { createdAt: at(-9) });
    await put('Later', { dueOn: at(9) });
    await put('Soon', { dueOn: at(2) });
    for (let i = 1; i <= 6; i++)
      await put(`Done ${i}`, { state: 'done', closedAt: at(-20 + i), closedById: person.id, closedNote: 'Fitted' });
    await put('Not wanted', { state: 'declined', closedAt: at(-1), closedByName: 'Ilse', closedNote: 'They sell it' });
    const { open, settled } = await jobsOfUnit(db, unit.id);
    expect(open.map((j) => j.what)).toEqual(['Soon', 'Later', 'No day']);
    expect(settled.map((j) => j.what)).toEqual(['Not wanted', 'Done 6', 'Done 5', 'Done 4', 'Done 3']);
    expect(settled[0]).toMatchObject({ declined: true, by: 'Ilse', note: 'They sell it', at: at(-1) });
    expect(settled[1]).toMatchObject({ declined: false, by: 'Tova Lind', note: 'Fitted' });
    expect(await jobsOfUnit(db, made.unit.id)).toEqual({ open: [], settled: [] });
  });
});

describe('labels', () => {
  it('are printed of a kitchen’s units in use by name, or of one; there are none where nothing stands', async () => {
    const { db } = database;
    const { kitchen, unit } = await haveOneUnit(db, { kitchen: { name: 'Quay' }, unit: { name: 'Walk-in', tag: 'WW-1' } });
    await db.unit.create({ data: unitRow(kitchen.id, { name: 'Bar fridge', tag: 'WW-2' }) });
    const gone = await db.unit.create({ data: unitRow(kitchen.id, { name: 'Gone', archivedAt: now }) });
    expect(await readLabels({ db }, { kitchenId: kitchen.id })).toEqual({
      kitchen: 'Quay',
      labels: [
        { tag: 'WW-2', unit: 'Bar fridge', kitchen: 'Quay' },
        { tag: 'WW-1', unit: 'Walk-in', kitchen: 'Quay' },
      ],
    });
    expect((await readLabels({ db }, { kitchenId: kitchen.id, unitId: unit.id })).labels.map((l) => l.tag)).toEqual(['WW-1']);
    const none = { code: 'not_found', message: 'There is no unit on file here to print a label for.' };
    await expect(readLabels({ db }, { kitchenId: kitchen.id, unitId: gone.id })).rejects.toMatchObject(none);
    await expect(readLabels({ db }, { kitchenId: kitchen.id, unitId: made.unit.id })).rejects.toMatchObject(none);
    await expect(readLabels({ db }, { kitchenId: NOBODY })).rejects.toMatchObject(none);
  });

  it('carry a code that no other unit has, longer where the short one is taken', async () => {
    const { db } = database;
    const id = '12345678-1234-4234-8234-123456789abc';
    const short = await freeTag(db, id);
    expect(short).toBe(shortCode(id, 6));
    await db.unit.create({ data: unitRow(made.kitchen.id, { name: 'Has the short one', tag: short }) });
    expect(await freeTag(db, id)).toBe(shortCode(id, 7));
  });
});

it('a unit goes out of use with its tasks and comes back with those alone; of one not on file it is said', async () => {
  const { db } = database;
  const { unit, kitchen, person, tasks } = await haveOneUnit(db);
  const ctx = { db, actor: { userId: person.id }, now };
  const beside = await db.unit.create({ data: unitRow(kitchen.id, { name: 'Beside' }) });
  const [off, ...others] = tasks;
  await db.task.update({ where: { id: off?.id ?? '' }, data: { active: false } });
  await archiveUnit(ctx, { id: unit.id, version: 1, reason: 'Sold' });
  expect(await db.unit.findUnique({ where: { id: unit.id } })).toMatchObject({ archivedAt: now, archivedWhy: 'Sold', version: 2 });
  expect(await db.unit.findUnique({ where: { id: beside.id } })).toMatchObject({ archivedAt: null, version: 1 });
  expect(await db.task.count({ where: { unitId: unit.id, active: true } })).toBe(0);
  const [note] = await db.auditEntry.findMany({ where: { entityId: unit.id } });
  expect(note).toMatchObject({
    action: 'unit.archived',
    entity: 'Unit',
    userId: person.id,
    at: now,
    detail: { reason: 'Sold', unitIds: [unit.id] },
  });
  await restoreUnit(ctx, { id: unit.id, version: 2 });
  const back = await db.task.findMany({ where: { unitId: unit.id, active: true } });
  expect(back.map((t) => t.id).toSorted()).toEqual(others.map((t) => t.id).toSorted());
  const missing = { code: 'not_found', message: 'That unit is not on file.' };
  await expect(archiveUnit(ctx, { id: NOBODY, version: 1, reason: 'Sold' })).rejects.toMatchObject(missing);
  await expect(restoreUnit(ctx, { id: NOBODY, version: 1 })).rejects.toMatchObject(missing);
});

it('knows whether any unit is on file that is in use', async () => {
  const { db } = database;
  expect(await anyUnit(db)).toBe(true);
  const inUse = { id: { in: (await db.unit.findMany({ where: { archivedAt: null }, select: { id: true } })).map((u) => u.id) } };
  await db.unit.updateMany({ where: inUse, data: { archivedAt: now } });
  expect(await anyUnit(db)).toBe(false);
  await db.unit.updateMany({ where: inUse, data: { archivedAt: null } });
  expect(await anyUnit(db)).toBe(true);
});
