import { blankUnit } from '@/lib/core/equipment/unit-fields';
import { beforeAll, describe, expect, it } from 'vitest';
import { differences } from '@/lib/features/audit/verbs/changes';
import { archiveCustomer, restoreCustomer } from '@/lib/features/customers/verbs/archive-customer';
import { archiveKitchen, restoreKitchen } from '@/lib/features/kitchens/verbs/archive-kitchen';
import { archiveUnit, restoreUnit } from '@/lib/features/equipment/verbs/archive-unit';
import { addBlackout, removeBlackout } from '@/lib/features/kitchens/verbs/blackouts';
import { createCustomer } from '@/lib/features/customers/verbs/create-customer';
import { createKitchen } from '@/lib/features/kitchens/verbs/create-kitchen';
import { createUnit, type UnitToCreate } from '@/lib/features/equipment/verbs/create-unit';
import { editCustomer } from '@/lib/features/customers/verbs/edit-customer';
import { editKitchen } from '@/lib/features/kitchens/verbs/edit-kitchen';
import { editUnit } from '@/lib/features/equipment/verbs/edit-unit';
import { ensureDefaultTasks } from '@/lib/features/tasks/verbs/ensure-default-tasks';
import { setPosition } from '@/lib/features/kitchens/verbs/set-position';
import type { NewKitchen } from '@/lib/schemas/customers/kitchens';
import { localDate, weekdayOf } from '@/lib/core/calendar';
import { unbookedKitchens } from '@/lib/features/visits/reads/unbooked';
import { bookingKitchen } from '@/lib/features/visits/reads/visits';
import { personRow, visitRow, visitTaskRow } from '../../support/factories';
import { useDatabase } from '../../support/database';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');
const maren = { userId: '00000000-0000-4000-8000-000000000001' };
const idris = { userId: '00000000-0000-4000-8000-000000000002' };
const as = (actor = maren) => ({ db: database.db, actor, now });

beforeAll(async () => {
  await database.db.user.createMany({
    data: [
      personRow({ id: maren.userId, name: 'Maren Oake', role: 'owner' }),
      personRow({ id: idris.userId, name: 'Idris Fenn', role: 'dispatcher' }),
    ],
  });
});

const contact = { contactName: '', email: '', phone: '', notes: '', language: 'en' as const };
const place = (over: Partial<NewKitchen> = {}): Omit<NewKitchen, 'customerId'> => ({
  name: 'Mill Street', address: '12 Mill Street, Fairhaven', timeZone: 'America/Chicago', altitudeM: 180, lat: null, lng: null, shortCode: '', serviceHours: [{ weekday: 0, from: '06:00', to: '10:30' }], accessNotes: '', contactName: '',
  contactPhone: '', contactEmail: '', energyPricePerKwh: 0.17, hotDayAirK: 308.15, preferredWeekday: 1, ...over,
}); // prettier-ignore
const reachIn = (kitchenId: string, over: Partial<UnitToCreate> = {}): UnitToCreate => ({
  kitchenId, name: 'Fry line drawers', kind: 'drawer_base', placement: 'fryer', refrigerant: 'R290', chargeKg: 0.12, application: 'medium', expansion: 'capillary', circuitAccess: 'sealed', condenserKind: 'fin_and_tube',
  cutoutPaGauge: null, boxSetK: 276, headControl: false, roofWork: false, make: 'Holm', model: '', serial: '', notes: '', ...over,
}); // prettier-ignore

let n = 0;
async function haveKitchen(over?: Partial<NewKitchen>) {
  const { customerId } = await createCustomer(as(), { name: `Juniper ${++n}`, ...contact });
  const { kitchenId } = await createKitchen(as(), { customerId, ...place(over) });
  return { customerId, kitchenId };
}
const version = async (table: 'customer' | 'kitchen' | 'unit', id: string) => {
  const find = { customer: database.db.customer, kitchen: database.db.kitchen, unit: database.db.unit }[table] as typeof database.db.unit;
  return (await find.findUniqueOrThrow({ where: { id }, select: { version: true } })).version;
};

describe('customers and kitchens', () => {
  it('are put on file once by name', async () => {
    const { customerId } = await haveKitchen();
    const name = (await database.db.customer.findUniqueOrThrow({ where: { id: customerId } })).name;
    await expect(createCustomer(as(), { name, ...contact })).rejects.toMatchObject({ code: 'conflict', field: 'name' });
    await expect(createKitchen(as(), { customerId, ...place() })).rejects.toMatchObject({ code: 'conflict', field: 'name' });
    await createKitchen(as(), { customerId, ...place({ name: 'Harbor' }) });
  });

  it('keep what a kitchen is, in SI, and its closed days half-open', async () => {
    const { kitchenId } = await haveKitchen();
    await addBlackout(as(), { kitchenId, from: localDate('2026-04-03'), to: localDate('2026-04-05'), reason: 'Easter' });
    const kitchen = await bookingKitchen(database.db, kitchenId);
    expect(kitchen?.blackouts).toEqual([{ startsOn: '2026-04-03', endsOn: '2026-04-06', reason: 'Easter' }]);
    expect(kitchen?.serviceHours).toEqual([{ weekday: 0, from: '06:00', to: '10:30' }]);
    const { id } = await database.db.kitchenBlackout.findFirstOrThrow({ where: { kitchenId } });
    await removeBlackout(as(), id);
    await removeBlackout(as(), id);
    expect(await database.db.kitchenBlackout.count({ where: { kitchenId } })).toBe(0);
  });

  it('read a short plus code near the shop, and say what is missing without one', async () => {
    const { customerId, kitchenId } = await haveKitchen();
    const coded = place({ name: 'By code', shortCode: '9QCJ+2VX Fairhaven' });
    await expect(createKitchen(as(), { customerId, ...coded })).rejects.toMatchObject({ code: 'invalid', field: 'position' });
    await database.db.shopSettings.upsert({
      where: { id: 1 },
      create: { id: 1, name: 'Shop', timeZone: 'America/Chicago', lat: 51.38, lng: -1.2 },
      update: { lat: 51.38, lng: -1.2 },
    });
    await editKitchen(as(), { id: kitchenId, version: 1, ...coded });
    expect(await database.db.kitchen.findUnique({ where: { id: kitchenId } })).toMatchObject({ lat: 51.370113, lng: -1.217766 });
  });

  it('keep their hours through an edit, and know a position that was changed from one that was not', async () => {
    const { kitchenId } = await haveKitchen();
    const found = { lat: 41.88, lng: -87.63 };
    await database.db.kitchen.update({ where: { id: kitchenId }, data: { ...found, positionFrom: 'address' } });
    const hours = [{ weekday: 2 as const, from: '05:00', to: '11:00' }];
    const where = { id: kitchenId };
    await editKitchen(as(), { ...where, version: 1, ...place({ ...found, serviceHours: hours }) });
    expect(await database.db.kitchen.findUnique({ where })).toMatchObject({ positionFrom: 'address' });
    expect((await bookingKitchen(database.db, kitchenId))?.serviceHours).toEqual(hours);
    await editKitchen(as(), { ...where, version: 2, ...place({ ...found, lat: 41.9, serviceHours: hours }) });
    expect(await database.db.kitchen.findUnique({ where })).toMatchObject({ lat: 41.9, positionFrom: 'hand' });
    await setPosition(as(), { kitchenId, text: '41.95, -87.7' });
    expect(await database.db.kitchen.findUnique({ where })).toMatchObject({ lat: 41.95, lng: -87.7, positionFrom: 'hand' });
    await expect(setPosition(as(), { kitchenId, text: ' ' })).rejects.toMatchObject({ code: 'invalid', field: 'text' });
  });

  it('name the visits booked on days they are closed, by their own calendar', async () => {
    const { kitchenId } = await haveKitchen({ timeZone: 'America/Los_Angeles' });
    // 23:00 on the 2nd and 23:00 on the 4th there.
    const starts = ['2026-05-03T06:00:00Z', '2026-05-05T06:00:00Z'];
    const rows = starts.map((at) => visitRow(kitchenId, maren.userId, new Date(at), 30));
    await database.db.visit.createMany({ data: rows });
    const found = await addBlackout(as(), { kitchenId, from: localDate('2026-05-03'), to: localDate('2026-05-04'), reason: 'Fair' });
    expect(found).toMatchObject({ total: 1, visits: [{ id: rows[1]!.id }] });
  });

  it('say how many more of them are due than are shown', async () => {
    const day = new Date('2026-01-01T00:00:00Z');
    for (let i = 0; i < 3; i++) {
      const { unitId } = await createUnit(as(), reachIn((await haveKitchen()).kitchenId));
      await database.db.task.updateMany({ where: { unitId }, data: { dueOn: day } });
    }
    const found = await unbookedKitchens(database.db, localDate('2026-01-02'), 2);
    expect([found.kitchens.length, found.total]).toEqual([2, 3]);
    expect((await unbookedKitchens(database.db, localDate('2025-01-01'), 2)).total).toBe(0);
  });

  it('tell who changed what when an edit is stale, and write nothing', async () => {
    const { kitchenId, customerId } = await haveKitchen();
    await editKitchen(as(idris), { id: kitchenId, version: 1, ...place({ altitudeM: 250, address: '14 Mill Street' }) });
    const stale = editKitchen(as(), { id: kitchenId, version: 1, ...place({ name: 'Lost' }) });
    await expect(stale).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringMatching(/^Idris Fenn changed this kitchen while this form was open \((address, altitude|altitude, address)\)/),
    });
    expect((await database.db.kitchen.findUniqueOrThrow({ where: { id: kitchenId } })).name).toBe('Mill Street');
    await editCustomer(as(idris), { id: customerId, version: 1, name: `Renamed ${n}`, ...contact });
    await expect(editCustomer(as(), { id: customerId, version: 1, name: 'Late', ...contact })).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('Idris Fenn'),
    });
  });

  it('of two edits at the same moment let one through', async () => {
    const { kitchenId } = await haveKitchen();
    const both = await Promise.allSettled(
      [1, 2].map((i) => editKitchen(as(i === 1 ? maren : idris), { id: kitchenId, version: 1, ...place({ accessNotes: `by ${i}` }) })),
    );
    expect(both.map((r) => r.status).sort()).toEqual(['fulfilled', 'rejected']);
    expect(await version('kitchen', kitchenId)).toBe(2);
  });

  it('keep an audit of every change with what it was before', async () => {
    const { kitchenId } = await haveKitchen();
    await editKitchen(as(idris), { id: kitchenId, version: 1, ...place({ energyPricePerKwh: 0.21 }) });
    const entry = await database.db.auditEntry.findFirstOrThrow({ where: { entityId: kitchenId, action: 'kitchen.edited' } });
    expect(entry).toMatchObject({ userId: idris.userId, detail: { changed: { energyPricePerKwh: [0.17, 0.21] } } });
  });
});

describe('units', () => {
  it('come with the tasks usual for their kind and place, on the kitchen’s weekday', async () => {
    const { kitchenId } = await haveKitchen();
    const { unitId, tag, taskIds } = await createUnit(as(), reachIn(kitchenId));
    expect(tag).toMatch(/^[0-9A-Z]{6}$/);
    expect(taskIds).toHaveLength(3);
    const tasks = await database.db.task.findMany({ where: { unitId }, orderBy: { kind: { sort: 'asc' } } });
    expect(tasks.map((t) => [t.kindKey, t.rule, t.anchor])).toEqual([
      ['coil_cleaning', 'FREQ=WEEKLY;INTERVAL=4;BYDAY=TU', 'last_completed'],
      ['drain_inspection', 'FREQ=WEEKLY;INTERVAL=13;BYDAY=TU', 'last_completed'],
      ['evaporator_inspection', 'FREQ=WEEKLY;INTERVAL=13;BYDAY=TU', 'last_completed'],
    ]);
    for (const t of tasks) {
      const due = localDate(t.dueOn.toISOString().slice(0, 10));
      expect(weekdayOf(due)).toBe(1);
      expect(due >= '2026-03-18' && due <= '2026-03-24').toBe(true);
    }
  });

  it('count from the last cleaning where it is known, or from the date given', async () => {
    const { kitchenId } = await haveKitchen({ preferredWeekday: null });
    const { unitId } = await createUnit(
      as(),
      reachIn(kitchenId, { name: 'Known', lastCleanedOn: localDate('2026-02-20'), firstDueOn: undefined }),
    );
    const coil = await database.db.task.findFirstOrThrow({ where: { unitId, kindKey: 'coil_cleaning' } });
    expect(coil.dueOn.toISOString()).toBe('2026-03-20T00:00:00.000Z');
    const other = await createUnit(as(), reachIn(kitchenId, { name: 'Given', firstDueOn: localDate('2026-05-01') }));
    expect((await database.db.task.findFirstOrThrow({ where: { unitId: other.unitId } })).dueOn.toISOString()).toBe(
      '2026-05-01T00:00:00.000Z',
    );
  });

  it('are not given their tasks twice, nor those that were taken off', async () => {
    const { kitchenId } = await haveKitchen();
    const { unitId, taskIds } = await createUnit(as(), reachIn(kitchenId));
    await database.db.task.update({ where: { id: taskIds[1] }, data: { active: false } });
    expect(await ensureDefaultTasks(as(), unitId)).toEqual([]);
    await database.db.task.delete({ where: { id: taskIds[0] } });
    expect(await ensureDefaultTasks(as(), unitId)).toHaveLength(1);
  });

  it('are told apart by name in a kitchen and by tag everywhere, and nothing half-made is left', async () => {
    const { kitchenId } = await haveKitchen();
    await createUnit(as(), reachIn(kitchenId, { tag: 'TAG-ONE' }));
    const tasks = await database.db.task.count();
    await expect(createUnit(as(), reachIn(kitchenId, { name: 'FRY LINE drawers' }))).rejects.toMatchObject({
      code: 'conflict',
      field: 'name',
    });
    await expect(createUnit(as(), reachIn(kitchenId, { name: 'Other', tag: 'TAG-ONE' }))).rejects.toMatchObject({
      code: 'conflict',
      field: 'tag',
    });
    expect(await database.db.task.count()).toBe(tasks);
  });

  it('are edited with a stale edit told, and keep their tag when none is given', async () => {
    const { kitchenId } = await haveKitchen();
    const { unitId, tag } = await createUnit(as(), reachIn(kitchenId));
    const { kitchenId: _, ...given } = reachIn(kitchenId, { chargeKg: 0.15 });
    const fields = { ...blankUnit('drawer_base'), ...given, tag: undefined };
    const map = {
      massFlow: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10],
      power: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10],
      units: 'F_lb_per_h',
      ratedSuperheatK: 11.1,
    } as const;
    await editUnit(as(idris), {
      id: unitId,
      version: 1,
      ...fields,
      compressorMap: { ...map, massFlow: [...map.massFlow] as never, power: [...map.power] as never },
    });
    const saved = await database.db.unit.findUniqueOrThrow({ where: { id: unitId } });
    expect(saved).toMatchObject({ tag, chargeKg: 0.15, version: 2, compressorMap: { units: 'F_lb_per_h' } });
    await expect(editUnit(as(), { id: unitId, version: 1, ...fields, compressorMap: null })).rejects.toMatchObject({
      message: expect.stringContaining('Idris Fenn changed this unit while this form was open ('),
    });
  });
});

describe('out of use and back', () => {
  it('takes a unit’s tasks with it and brings back those that were active', async () => {
    const { kitchenId } = await haveKitchen();
    const { unitId, taskIds } = await createUnit(as(), reachIn(kitchenId));
    await database.db.task.update({ where: { id: taskIds[2] }, data: { active: false } });
    await archiveUnit(as(), { id: unitId, version: 1, reason: 'Sold' });
    expect(await database.db.task.count({ where: { unitId, active: true } })).toBe(0);
    // Its name is free again for another.
    const second = await createUnit(as(), reachIn(kitchenId));
    await expect(restoreUnit(as(), { id: unitId, version: await version('unit', unitId) })).rejects.toMatchObject({
      code: 'conflict',
      field: 'name',
    });
    await archiveUnit(as(), { id: second.unitId, version: 1, reason: 'Mistake' });
    await restoreUnit(as(), { id: unitId, version: await version('unit', unitId) });
    expect(await database.db.task.count({ where: { unitId, active: true } })).toBe(2);
  });

  it('holds back while a unit stands on an open visit, and says which', async () => {
    const { kitchenId, customerId } = await haveKitchen();
    const { unitId, taskIds } = await createUnit(as(), reachIn(kitchenId));
    const technician = await database.db.user.create({ data: personRow() });
    const visit = await database.db.visit.create({ data: visitRow(kitchenId, technician.id, new Date('2026-03-10T15:00:00Z'), 60) });
    await database.db.visitTask.create({ data: visitTaskRow(visit.id, { id: taskIds[0], unitId }) });
    const unit = archiveUnit(as(), { id: unitId, version: 1, reason: 'Sold' });
    await expect(unit).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringMatching(/Fry line drawers stands on a visit to Juniper \d+, Mill Street on Tue,? 10 Mar/),
    });
    await expect(archiveKitchen(as(), { id: kitchenId, version: 1, reason: 'Closed' })).rejects.toMatchObject({ code: 'conflict' });
    await expect(archiveCustomer(as(), { id: customerId, version: 1, reason: 'Left' })).rejects.toMatchObject({ code: 'conflict' });
    expect(await database.db.unit.count({ where: { kitchenId, archivedAt: null } })).toBe(1);
  });

  it('brings a customer back with what went with it, and nothing that went before', async () => {
    const { customerId, kitchenId } = await haveKitchen();
    const gone = await createKitchen(as(), { customerId, ...place({ name: 'Gone before' }) });
    const { unitId } = await createUnit(as(), reachIn(kitchenId));
    await archiveKitchen(as(), { id: gone.kitchenId, version: 1, reason: 'Closed' });
    await archiveCustomer(as(), { id: customerId, version: 1, reason: 'Left' });
    expect(await database.db.kitchen.count({ where: { customerId, archivedAt: null } })).toBe(0);
    expect(await database.db.unit.count({ where: { kitchen: { customerId }, archivedAt: null } })).toBe(0);
    await expect(createKitchen(as(), { customerId, ...place({ name: 'New' }) })).rejects.toMatchObject({ code: 'conflict' });
    await expect(restoreKitchen(as(), { id: kitchenId, version: await version('kitchen', kitchenId) })).rejects.toMatchObject({
      code: 'conflict',
    });
    await restoreCustomer(as(), { id: customerId, version: await version('customer', customerId) });
    const kitchens = await database.db.kitchen.findMany({ where: { customerId }, select: { name: true, archivedAt: true } });
    expect(kitchens.filter((k) => k.archivedAt === null).map((k) => k.name)).toEqual(['Mill Street']);
    expect(await database.db.task.count({ where: { unitId, active: true } })).toBe(3);
  });

  it('brings a kitchen back with its units, and none of them before it', async () => {
    const { kitchenId } = await haveKitchen();
    const [stays, before] = [await createUnit(as(), reachIn(kitchenId)), await createUnit(as(), reachIn(kitchenId, { name: 'Sold' }))];
    await archiveUnit(as(), { id: before.unitId, version: 1, reason: 'Sold' });
    await archiveKitchen(as(), { id: kitchenId, version: 1, reason: 'Closed' });
    await expect(restoreUnit(as(), { id: stays.unitId, version: await version('unit', stays.unitId) })).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('Mill Street is out of use'),
    });
    await restoreKitchen(as(), { id: kitchenId, version: await version('kitchen', kitchenId) });
    expect((await database.db.kitchen.findUniqueOrThrow({ where: { id: kitchenId } })).archivedAt).toBeNull();
    const units = await database.db.unit.findMany({ where: { kitchenId, archivedAt: null } });
    expect(units.map((u) => [u.id, u.archivedWhy])).toEqual([[stays.unitId, '']]);
    expect(await database.db.task.count({ where: { kitchenId, active: true } })).toBe(3);
  });

  it('is refused to whoever looked at an older state, and twice', async () => {
    const { customerId, kitchenId } = await haveKitchen();
    const { unitId } = await createUnit(as(), reachIn(kitchenId));
    const [why, conflict] = [{ reason: 'Left' }, { code: 'conflict' }];
    for (const [archive, restore, id] of [
      [archiveUnit, restoreUnit, unitId],
      [archiveKitchen, restoreKitchen, kitchenId],
      [archiveCustomer, restoreCustomer, customerId],
    ] as const) {
      await expect(archive(as(), { id, version: 7, ...why })).rejects.toMatchObject(conflict);
      await expect(restore(as(), { id, version: 1 })).rejects.toMatchObject(conflict);
      await archive(as(), { id, version: 1, ...why });
      await expect(archive(as(), { id, version: 2, ...why })).rejects.toMatchObject(conflict);
      await expect(restore(as(), { id, version: 1 })).rejects.toMatchObject(conflict);
      await restore(as(), { id, version: 2 });
      // Beneath it all stands again, each change counted.
      expect(await database.db.unit.findUnique({ where: { id: unitId } })).toMatchObject({ archivedAt: null });
      await database.db.$executeRaw`UPDATE "Kitchen" SET version = 1 WHERE id = ${kitchenId}::uuid`;
      await database.db.$executeRaw`UPDATE "Customer" SET version = 1 WHERE id = ${customerId}::uuid`;
    }
    const noted = await database.db.auditEntry.findMany({
      where: { entityId: { in: [unitId, kitchenId, customerId] } },
      orderBy: { id: 'asc' },
    });
    expect(noted.map((e) => e.action).filter((a) => !a.endsWith('created'))).toEqual(
      ['unit', 'kitchen', 'customer'].flatMap((of) => [`${of}.archived`, `${of}.restored`]),
    );
  });
});

it('writes differences by field', () => {
  expect(differences({ a: 1, b: null as number | null }, { a: 1, b: 2 })).toEqual({ b: [null, 2] });
  expect(differences({ a: [{ x: 1, y: 2 }] }, { a: [{ y: 2, x: 1 }] })).toEqual({});
  expect(differences({ a: 1592, b: 1592, c: 4_000_000 }, { a: 1592.0009, b: 1592.1, c: 4_000_001 })).toEqual({
    b: [1592, 1592.1],
    c: [4_000_000, 4_000_001],
  });
});
