import { beforeAll, describe, expect, it } from 'vitest';
import { customerPage, customerToEdit, findPlaces, fleetCounts, listCustomers } from '@/lib/features/customers/reads/customers';
import { archiveCustomer, restoreCustomer } from '@/lib/features/customers/verbs/archive-customer';
import { createCustomer } from '@/lib/features/customers/verbs/create-customer';
import { editCustomer } from '@/lib/features/customers/verbs/edit-customer';
import { setSending } from '@/lib/features/customers/verbs/set-sending';
import { useDatabase } from '../../support/database';
import { customerRow, kitchenRow, personRow, taskRow, unitRow, haveTaskKinds } from '../../support/factories';

const database = useDatabase();
// Still the evening of 3 March in Denver, the 4th already in Dublin.
const now = new Date('2026-03-04T04:00:00Z');
const day = (d: string) => new Date(`${d}T00:00:00Z`);
const NOBODY = '00000000-0000-4000-8000-000000000000';
const contact = { contactName: 'Ilse', email: '', phone: '', notes: '', language: 'en' as const };
const onFile = (id: string) => database.db.customer.findUniqueOrThrow({ where: { id } });
let maren: { userId: string };
const ctx = () => ({ db: database.db, actor: maren, now });
const noted = async (entityId: string) =>
  (await database.db.auditEntry.findMany({ where: { entity: 'Customer', entityId }, orderBy: { id: 'asc' } })).map((a) => {
    expect(a).toMatchObject({ userId: maren.userId, at: now });
    return [a.action, a.detail] as const;
  });

beforeAll(async () => {
  const { db } = database;
  await haveTaskKinds(db);
  await db.shopSettings.create({ data: { id: 1, name: 'Test shop', timeZone: 'America/Denver' } });
  maren = { userId: (await db.user.create({ data: personRow({ name: 'Maren Oake', role: 'owner' }) })).id };
});

describe('a customer', () => {
  it('is changed with what differs noted, and not over another’s change', async () => {
    const { customerId: id } = await createCustomer(ctx(), { name: 'Larch Diners', ...contact });
    expect(await onFile(id)).toMatchObject({ name: 'Larch Diners', contactName: 'Ilse', version: 1, createdAt: now });
    await editCustomer(ctx(), { id, version: 1, name: 'Larch Diners', ...contact, phone: '555 0100' });
    expect(await onFile(id)).toMatchObject({ phone: '555 0100', version: 2 });
    await expect(editCustomer(ctx(), { id, version: 1, name: 'Late', ...contact })).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringMatching(/^Maren Oake changed this customer while this form was open \(phone\)/i),
    });
    await createCustomer(ctx(), { name: 'Taken', ...contact });
    await expect(editCustomer(ctx(), { id, version: 2, name: 'Taken', ...contact })).rejects.toMatchObject({
      code: 'conflict',
      field: 'name',
      message: expect.stringContaining('on file already'),
    });
    expect(await onFile(id)).toMatchObject({ name: 'Larch Diners', version: 2 });
    expect(await noted(id)).toEqual([
      ['customer.created', { v: 1 }],
      ['customer.edited', { v: 1, changed: { phone: ['', '555 0100'] } }],
    ]);
  });

  it('hears by itself what was ticked, and who ticked it is noted', async () => {
    const { customerId: id } = await createCustomer(ctx(), { name: 'Rowan Inns', ...contact });
    const before = await onFile(id);
    const set = { sendsReports: !before.sendsReports, sendsQuarters: before.sendsQuarters };
    await setSending(ctx(), { id, ...set });
    expect(await onFile(id)).toMatchObject(set);
    expect((await noted(id)).at(-1)).toEqual([
      'customer.edited',
      { v: 1, changed: { sendsReports: [before.sendsReports, set.sendsReports] } },
    ]);
  });

  it('that is not on file is said so by each thing that can be done to one', async () => {
    const missing = { code: 'not_found', message: 'That customer is not on file.' };
    await expect(editCustomer(ctx(), { id: NOBODY, version: 1, name: 'X', ...contact })).rejects.toMatchObject(missing);
    await expect(setSending(ctx(), { id: NOBODY, sendsReports: true, sendsQuarters: true })).rejects.toMatchObject(missing);
    await expect(archiveCustomer(ctx(), { id: NOBODY, version: 1, reason: 'Left' })).rejects.toMatchObject(missing);
    await expect(restoreCustomer(ctx(), { id: NOBODY, version: 1 })).rejects.toMatchObject(missing);
    expect([await customerPage(database.db, NOBODY), await customerToEdit(database.db, NOBODY)]).toEqual([null, null]);
  });

  it('goes out of use with its kitchens, none of another’s, and it is noted which and why', async () => {
    const { db } = database;
    const [leaving, staying] = [await db.customer.create({ data: customerRow() }), await db.customer.create({ data: customerRow() })];
    const [goes, stays] = await Promise.all(
      [leaving, staying].map(async ({ id }) => {
        const kitchen = await db.kitchen.create({ data: kitchenRow(id) });
        return { kitchen, unit: await db.unit.create({ data: unitRow(kitchen.id) }) };
      }),
    );
    if (!goes || !stays) throw new Error('no kitchens');
    await archiveCustomer(ctx(), { id: leaving.id, version: 1, reason: 'Sold up' });
    expect(await db.kitchen.findUnique({ where: { id: goes.kitchen.id } })).toMatchObject({ archivedAt: now, version: 2 });
    expect(await db.unit.findUnique({ where: { id: goes.unit.id } })).toMatchObject({ archivedAt: now, archivedWhy: 'Sold up' });
    expect(await db.kitchen.findUnique({ where: { id: stays.kitchen.id } })).toMatchObject({ archivedAt: null, version: 1 });
    expect(await db.unit.findUnique({ where: { id: stays.unit.id } })).toMatchObject({ archivedAt: null });
    expect((await noted(leaving.id))[0]).toMatchObject(['customer.archived', { reason: 'Sold up', kitchenIds: [goes.kitchen.id] }]);
    await expect(archiveCustomer(ctx(), { id: leaving.id, version: 2, reason: 'Twice' })).rejects.toThrow(/changed this customer while/);
    await expect(restoreCustomer(ctx(), { id: staying.id, version: 1 })).rejects.toThrow(/changed this customer while/);
    await restoreCustomer(ctx(), { id: leaving.id, version: 2 });
    expect(await onFile(leaving.id)).toMatchObject({ archivedAt: null, version: 3 });
    expect((await noted(leaving.id)).at(-1)).toEqual(['customer.restored', { v: 1 }]);
  });
});

describe('lists of customers', () => {
  let [aspen, birch, cedar] = ['', '', ''];
  beforeAll(async () => {
    const { db } = database;
    await db.unit.deleteMany();
    await db.kitchen.deleteMany();
    await db.customer.deleteMany();
    const make = async (name: string, archivedAt: Date | null = null) =>
      (await db.customer.create({ data: customerRow({ name, archivedAt }) })).id;
    [aspen, birch, cedar] = [await make('Aspen Group'), await make('birch & Co'), await make('Cedar Gone', now)];
    const kitchen = (customerId: string, over: Parameters<typeof kitchenRow>[1]) =>
      db.kitchen.create({ data: kitchenRow(customerId, over) });
    const denver = await kitchen(aspen, { name: 'Quay', address: '12 Quay Street' });
    const dublin = await kitchen(aspen, { name: 'Liffey', timeZone: 'Europe/Dublin', address: '3 Liffey Row' });
    const closed = await kitchen(aspen, { name: 'Closed', archivedAt: now, address: '1 Old Lane' });
    await kitchen(birch, { name: 'Bakery', address: '' });
    await kitchen(cedar, { name: 'Was', archivedAt: now });
    for (const [k, name, over] of [
      [denver, 'Walk-in', { tag: 'AA-1' }],
      [dublin, 'Ice maker', {}],
      [closed, 'Reach-in', { archivedAt: now }],
    ] as const) {
      const unit = await db.unit.create({ data: unitRow(k.id, { name, ...over }) });
      await db.task.create({ data: taskRow(unit, { dueOn: day('2026-03-03') }) });
      await db.task.create({ data: taskRow(unit, { kindKey: 'drain_inspection', dueOn: day('2026-02-01'), active: false }) });
    }
  });
  const list = (o: Partial<Parameters<typeof listCustomers>[1]> = {}) => listCustomers(database.db, { limit: 10, now, ...o });

  it('have those in use by name, whatever their capitals, with what each holds and what is overdue by its own kitchen’s day', async () => {
    expect(await list()).toEqual([
      { id: aspen, name: 'Aspen Group', archived: false, kitchens: 2, units: 2, overdue: 1, address: '12 Quay Street' },
      { id: birch, name: 'birch & Co', archived: false, kitchens: 1, units: 0, overdue: 0, address: '' },
    ]);
    expect((await list({ archived: true })).map((c) => [c.id, c.archived, c.kitchens])).toEqual([[cedar, true, 1]]);
  });

  it('go on page by page', async () => {
    const [first, ...more] = await list({ limit: 1 });
    expect([first?.id, more]).toEqual([aspen, []]);
    expect((await list({ limit: 1, after: { name: first?.name ?? '', id: first?.id ?? '' } })).map((c) => c.id)).toEqual([birch]);
  });

  it('are found by a piece of the name of customer, kitchen or unit, or by a whole tag', async () => {
    const found = async (q: string) => (await list({ q })).map((c) => c.id);
    for (const q of ['aspen', 'liff', 'walk-', 'aa-1']) expect(await found(q), q).toEqual([aspen]);
    for (const q of ['aa', 'cedar', '%']) expect(await found(q), q).toEqual([]);
  });

  it('say how much is on file and in use', async () => {
    expect(await fleetCounts(database.db)).toEqual({ customers: 2, kitchens: 3, units: 2 });
  });

  it('open to a page with each kitchen, those out of use last, and when the next thing is due there', async () => {
    const page = await customerPage(database.db, aspen);
    expect(page?.kitchens.map((k) => [k.name, k.units, k.soonest])).toEqual([
      ['Liffey', 1, day('2026-03-03')],
      ['Quay', 1, day('2026-03-03')],
      ['Closed', 0, day('2026-03-03')],
    ]);
    expect((await customerPage(database.db, birch))?.kitchens.map((k) => k.soonest)).toEqual([null]);
    expect(await customerToEdit(database.db, birch)).toMatchObject({ name: 'birch & Co' });
  });

  it('give places in use by name, address or tag, the tag first', async () => {
    const { db } = database;
    const names = async (q: string) => {
      const { kitchens, units } = await findPlaces(db, q);
      return [kitchens.map((k) => k.name), units.map((u) => u.name)];
    };
    expect(await names('quay')).toEqual([['Quay'], []]);
    expect(await names('liffey row')).toEqual([['Liffey'], []]);
    expect(await names(' aa-1 ')).toEqual([[], ['Walk-in']]);
    expect(await names('old lane')).toEqual([[], []]);
    expect(await names('reach')).toEqual([[], []]);
    expect((await findPlaces(db, 'i', 1)).units).toHaveLength(1);
    expect((await findPlaces(db, 'quay')).kitchens[0]).toMatchObject({ customer: 'Aspen Group', address: '12 Quay Street' });
  });
});
