import { describe, expect, it } from 'vitest';
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
});
