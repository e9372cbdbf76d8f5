import { TASK_KINDS } from '@/lib/core/tasks/kinds';
import type { Db } from '@/lib/database/client';
import type { Prisma } from '@/lib/database/generated/client';
import { customerRow, kitchenRow, personRow, taskRow, unitRow } from '@/prisma/seed/rows';

export * from '@/prisma/seed/rows';

/** A shift that forbids nothing. */
export const ANY_TIME = Array.from({ length: 7 }, (_, weekday) => ({ weekday, from: '00:00', to: '24:00' }));

/** The task kinds every shop starts with. */
export async function haveTaskKinds(db: Db): Promise<void> {
  await db.taskKind.createMany({ data: TASK_KINDS, skipDuplicates: true });
}

type Over<F extends (...args: never[]) => unknown> = Partial<ReturnType<F>>;

/** A job of one unit, with the first line of its history. */
export const jobRow = (unit: { id: string; kitchenId: string }, over: Partial<Prisma.JobUncheckedCreateInput> = {}) =>
  ({
    kitchenId: unit.kitchenId,
    source: 'office',
    what: 'Quote a door gasket',
    ...over,
    units: { create: { unitId: unit.id } },
    events: { create: { kind: 'opened', to: 'asked' } },
  }) satisfies Prisma.JobUncheckedCreateInput;

/** A kitchen with one unit and its tasks, and a technician: enough for most tests. Ids are fresh each time. */
export async function haveOneUnit(
  db: Db,
  over: {
    customer?: Over<typeof customerRow>;
    kitchen?: Over<typeof kitchenRow>;
    unit?: Over<typeof unitRow>;
    person?: Over<typeof personRow>;
    tasks?: Over<typeof taskRow>[];
  } = {},
) {
  await haveTaskKinds(db);
  await db.shopSettings.createMany({
    data: { id: 1, name: 'Test shop', timeZone: 'America/Denver' },
    skipDuplicates: true,
  });
  const customer = await db.customer.create({ data: customerRow(over.customer) });
  const kitchen = await db.kitchen.create({ data: kitchenRow(customer.id, over.kitchen) });
  const unit = await db.unit.create({ data: unitRow(kitchen.id, over.unit) });
  const person = await db.user.create({ data: personRow(over.person) });
  const wanted = over.tasks ?? [{ kindKey: 'coil_cleaning' }, { kindKey: 'drain_inspection' }, { kindKey: 'evaporator_inspection' }];
  const tasks = await db.task.createManyAndReturn({ data: wanted.map((t) => taskRow(unit, t)) });
  return { customer, kitchen, unit, person, tasks };
}
