import { beforeAll, describe, expect, it } from 'vitest';
import { findRecords } from '@/lib/features/find/reads/find';
import { find } from '@/lib/features/find/verbs/find-records';
import { useDatabase } from '../../support/database';
import { customerRow, kitchenRow, unitRow } from '../../support/factories';

const database = useDatabase();
const archived = { archivedAt: new Date('2026-11-01'), archivedWhy: 'Sold' };
let ids: { customer: string; kitchen: string; unit: string };

beforeAll(async () => {
  const { db } = database;
  const customer = await db.customer.create({
    data: customerRow({ name: 'Marlow Grill', contactName: 'Ilse Braun', phone: '(555) 010-7788', email: 'ilse@marlow.example' }),
  });
  const kitchen = await db.kitchen.create({
    data: kitchenRow(customer.id, { name: 'Marlow Quay', address: '2 Pier', contactPhone: '555-0199' }),
  });
  const unit = async (name: string, tag: string, over = {}) =>
    (await db.unit.create({ data: unitRow(kitchen.id, { name, tag, make: 'Norfrost', model: 'TX-9', ...over }) })).id;
  ids = { customer: customer.id, kitchen: kitchen.id, unit: await unit('Walk-in', 'MQ7-01', { serial: 'SN 44/B' }) };
  await unit('Second walk-in', 'MQ7-02');
  await unit('MQ701 stand-in', 'MQ7-03');
  await unit('Archived walk-in', 'MQ7-04', archived);
  const plain = await db.customer.create({ data: customerRow({ name: 'Plain', contactName: '', phone: '' }) });
  const same = await db.kitchen.create({ data: kitchenRow(plain.id, { name: 'Plain', address: '', contactPhone: '' }) });
  await db.unit.create({ data: unitRow(same.id, { name: 'Plain unit', tag: 'PL-1', serial: '' }) });
  const gone = await db.customer.create({ data: customerRow({ name: 'Marlow Gone', archivedAt: new Date('2026-11-01') }) });
  await db.kitchen.create({ data: kitchenRow(gone.id, { name: 'Marlow Gone', archivedAt: new Date('2026-11-01') }) });
});

const found = (q: string, limit?: number) => findRecords(database.db, q, limit);
const names = async (q: string, limit?: number) => (await found(q, limit)).map((h) => h.name);

describe('what is found', () => {
  it('is told by what it is and where it stands, places first, then units, then customers; nothing out of use', async () => {
    expect(await found('marlow')).toEqual([
      { kind: 'kitchen', href: `/kitchens/${ids.kitchen}`, name: 'Marlow Quay', about: 'Marlow Grill, 2 Pier, 555-0199' },
      { kind: 'customer', href: `/customers/${ids.customer}`, name: 'Marlow Grill', about: 'Ilse Braun, (555) 010-7788' },
    ]);
    expect(await found('sn44b')).toEqual([
      { kind: 'unit', href: `/units/${ids.unit}`, name: 'Walk-in', about: 'MQ7-01, SN 44/B, Marlow Grill, Marlow Quay' },
    ]);
    // What is not on file leaves no comma behind, and a kitchen called as its customer is named once.
    expect((await found('plain')).map((h) => [h.kind, h.about])).toEqual([
      ['kitchen', 'Plain'],
      ['unit', 'PL-1, Plain'],
      ['customer', ''],
    ]);
  });

  it('goes by any of its words, in any order and all of them, and by a customer’s phone and e-mail', async () => {
    for (const q of ['ilse braun', 'braun marlow', '5550107788', '010-7788', 'ilse@marlow'])
      expect(await names(q), q).toEqual(['Marlow Grill']);
    for (const q of ['norfrost second', 'tx-9 second']) expect(await names(q), q).toEqual(['Second walk-in']);
    expect(await names('norfrost elsewhere')).toEqual([]);
    expect(await find({ db: database.db }, 'second walk')).toEqual({ hits: await found('second walk'), near: false });
  });

  it('stands in order: the tag typed before all, then what begins so, then by name; so many of each and no more', async () => {
    for (const q of ['mq701', 'MQ701']) expect(await names(q), q).toEqual(['Walk-in', 'MQ701 stand-in']);
    const kitchen = await database.db.kitchen.findUniqueOrThrow({ where: { id: ids.kitchen } });
    // However it is written, the label itself comes before whatever else names it.
    await database.db.unit.create({ data: unitRow(kitchen.id, { name: 'Beside mq7-01 and mq701', tag: 'BS-1' }) });
    for (const q of ['mq7-01', 'MQ7 01']) expect((await names(q))[0], q).toBe('Walk-in');
    expect(await names('mq7-01')).toEqual(['Walk-in', 'Beside mq7-01 and mq701']);
    await database.db.unit.deleteMany({ where: { tag: 'BS-1' } });
    // A tag that begins so comes before a serial that holds it.
    await database.db.unit.create({ data: unitRow(kitchen.id, { name: 'A shelf', tag: 'SH-1', serial: 'XMQ7' }) });
    expect(await names('mq7')).toEqual(['MQ701 stand-in', 'Second walk-in', 'Walk-in', 'A shelf']);
    expect(await names('walk-in')).toEqual(['Walk-in', 'Second walk-in']);
    expect(await names('norfrost')).toEqual(['MQ701 stand-in', 'Second walk-in', 'Walk-in']);
    expect(await names('norfrost', 2)).toHaveLength(2);
    await database.db.unit.createMany({
      data: Array.from({ length: 9 }, (_, i) => unitRow(kitchen.id, { name: `Drawer ${i}`, tag: `DR-${i}` })),
    });
    // A sign that has a meaning to the database is a sign like any other.
    await database.db.unit.createMany({
      data: ['50 litres, 50% full', '50% glycol'].map((name, i) => unitRow(kitchen.id, { name, tag: `GL-${i}` })),
    });
    expect(await names('50%')).toEqual(['50% glycol', '50 litres, 50% full']);
    expect(await names('drawer')).toEqual(Array.from({ length: 7 }, (_, i) => `Drawer ${i}`));
  });
});
