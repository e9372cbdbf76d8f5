import { randomUUID } from 'node:crypto';
import { expect, it } from 'vitest';
import { useDatabase } from '../../support/database';
import { finding, haveVisit, MORNING, officeTold, Tablet } from './a-tablet';

const database = useDatabase();

it('a unit that was not on file comes with a tag, a name of its own and its usual tasks, once', async () => {
  const { visit, person, kitchen, unit } = await haveVisit(database.db);
  const tablet = new Tablet(database.db, person);
  const unitId = randomUUID();
  const add = tablet.make(visit.id, 'unit.add', {
    unitId, name: unit.name, kind: 'drawer_base', make: 'Holm', model: '', serial: '', refrigerant: 'R290', chargeKg: 0.12, application: 'medium', expansion: 'capillary', circuitAccess: 'sealed',
    condenserKind: 'fin_and_tube', placement: 'fryer', notes: '',
  }); // prettier-ignore
  await tablet.send([add]);
  await tablet.send([add]);
  const added = await database.db.unit.findUniqueOrThrow({
    where: { id: unitId },
    include: { tasks: { orderBy: { kind: { sort: 'asc' } } } },
  });
  expect(added).toMatchObject({ name: `${unit.name} (2)`, kitchenId: kitchen.id, refrigerant: 'R290' });
  expect(added.tag).toMatch(/^[0-9A-Z]{6,}$/);
  expect(added.tasks.map((t) => [t.kindKey, t.rule])).toEqual([
    ['coil_cleaning', 'FREQ=WEEKLY;INTERVAL=4'],
    ['drain_inspection', 'FREQ=WEEKLY;INTERVAL=13'],
    ['evaporator_inspection', 'FREQ=WEEKLY;INTERVAL=13'],
  ]);
  expect(await database.db.unit.count({ where: { kitchenId: kitchen.id } })).toBe(2);
});

it('a unit added in place of another is cleaned and recorded whole at once, before the office has heard of it', async () => {
  const { db } = database;
  const { visit, person, unit } = await haveVisit(db);
  const tablet = new Tablet(db, person);
  const [unitId, coil, drain] = [randomUUID(), randomUUID(), randomUUID()];
  const add = tablet.make(visit.id, 'unit.add', {
    unitId, taskIds: { coil_cleaning: coil, drain_inspection: drain }, replacesId: unit.id, name: 'New reach-in', kind: 'reach_in', placement: 'line', refrigerant: 'R290',
  }); // prettier-ignore
  const { results } = await tablet.send([
    add,
    ...(['coil', 'ice', 'drain'] as const).map((a, i) =>
      tablet.make(visit.id, 'finding.set', finding(unitId, a, (['matted', 'dry', 'runs'] as const)[i] ?? null)),
    ),
    tablet.make(visit.id, 'finding.set', finding(unitId, 'coil', 'bare', { phase: 'left' })),
    ...[coil, drain].flatMap((taskId) => [
      tablet.make(visit.id, 'task.take', { taskId, unitId }),
      tablet.make(visit.id, 'task.done', { taskId }),
    ]),
  ]);
  expect(results.map((r) => r.outcome)).toEqual(results.map(() => 'applied'));
  expect(await officeTold(db, results[0])).toContain(`in place of ${unit.name}`);
  expect(await db.unit.findUniqueOrThrow({ where: { id: unitId } })).toMatchObject({ replacesId: unit.id });
  const done = await db.visitTask.findMany({ where: { visitId: visit.id, unitId } });
  expect(done.map((t) => [t.taskId, t.outcome]).sort()).toEqual(
    [
      [coil, 'done'],
      [drain, 'done'],
    ].sort(),
  );
  // What the tablet showed by itself is what the office tells.
  const visitShown = (await tablet.refresh()).changed[0];
  expect(visitShown?.units.find((u) => u.id === unitId)?.tasks.map((t) => t.taskId)).toContain(coil);
  await expect(db.unit.update({ where: { id: unitId }, data: { replacesId: unitId } })).rejects.toThrow(/unit_replaces_another/);
});

it('work nobody had planned joins the visit; booked for later, it moves over, and the office alone hears of it', async () => {
  const { db } = database;
  const { visit, person, kitchen, unit, coil } = await haveVisit(db);
  const tablet = new Tablet(db, person);
  await db.visitTask.deleteMany({ where: { visitId: visit.id, taskId: coil.id } });
  const later = await db.visit.create({
    data: {
      kitchenId: kitchen.id,
      technicianId: person.id,
      startsAt: new Date(MORNING.getTime() + 3 * 86_400_000),
      endsAt: new Date(MORNING.getTime() + 3 * 86_400_000 + 3_600_000),
    },
  });
  await db.visitTask.create({ data: { visitId: later.id, taskId: coil.id, unitId: unit.id } });
  const take = () => tablet.make(visit.id, 'task.take', { taskId: coil.id, unitId: unit.id });
  const { results } = await tablet.send([take(), take(), tablet.make(visit.id, 'task.done', { taskId: coil.id })]);
  expect(await officeTold(db, results[0])).toMatch(/booked for .* taken on now/);
  expect(await officeTold(db, results[1])).toBe('');
  expect(await db.visitTask.findMany({ where: { taskId: coil.id }, select: { visitId: true, outcome: true } })).toEqual([
    { visitId: visit.id, outcome: 'done' },
  ]);
  expect((await tablet.send([tablet.make(visit.id, 'task.take', { taskId: randomUUID(), unitId: unit.id })])).results[0]?.outcome).toBe(
    'rejected',
  );
});
