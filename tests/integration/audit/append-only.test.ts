import { describe, expect, it } from 'vitest';
import { exportChanges } from '@/lib/features/audit/verbs/export-changes';
import { useDatabase } from '../../support/database';

const database = useDatabase();

describe('who changed what', () => {
  it.each([
    ['edited', (id: bigint) => database.db.auditEntry.update({ where: { id }, data: { action: 'nothing' } })],
    ['taken away', (id: bigint) => database.db.auditEntry.delete({ where: { id } })],
    ['taken away in bulk', () => database.db.auditEntry.deleteMany()],
    ['emptied', () => database.db.$executeRaw`TRUNCATE "AuditEntry"`],
  ])('is never %s', async (_, change) => {
    const { id } = await database.db.auditEntry.create({ data: { action: 'unit.edited', entity: 'Unit', entityId: 'a' } });
    const before = await database.db.auditEntry.findMany();
    await expect(change(id)).rejects.toThrow(/only ever added to/);
    expect(await database.db.auditEntry.findMany()).toEqual(before);
  });

  it('goes into a file whole, a line a field, and no cell is a formula', async () => {
    const { db } = database;
    await db.auditEntry.createMany({
      data: [
        {
          action: 'customer.edited',
          entity: 'Customer',
          entityId: 'b',
          detail: { v: 1, changed: { name: ['Old', '=1+1'], phone: ['', '5'] } },
        },
        { action: 'policy.set', entity: 'Shop', detail: { v: 1, why: 'asked' } },
      ],
    });
    const pieces: string[] = [];
    for await (const piece of exportChanges({ db })) pieces.push(piece);
    const rows = pieces.join('').trim().split('\r\n');
    expect(rows).toHaveLength(1 + (await db.auditEntry.count()) + 1);
    expect(rows.filter((r) => r.includes('customer.edited')).map((r) => r.split(',').slice(2))).toEqual([
      ['customer.edited', 'Customer', 'b', 'name', 'Old', "'=1+1", ''],
      ['customer.edited', 'Customer', 'b', 'phone', '', '5', ''],
    ]);
    expect(rows.at(-1)).toContain('asked');
  });
});
