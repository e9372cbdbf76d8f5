import { randomUUID } from 'node:crypto';
import { expect, it } from 'vitest';
import { useDatabase } from '../../support/database';
import { haveVisit, Tablet } from './a-tablet';

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
