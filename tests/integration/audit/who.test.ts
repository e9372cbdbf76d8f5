import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { auditAfter, changesOf } from '@/lib/features/audit/reads/audit';
import { useDatabase } from '@/tests/support/database';
import { personRow } from '@/tests/support/factories';

const database = useDatabase();

describe('who did it', () => {
  it('is a person by name or the program, the latest first on the record and the first first in the whole', async () => {
    const { db } = database;
    const person = await db.user.create({ data: personRow({ name: 'Idris Fenn' }) });
    const entityId = randomUUID();
    const row = { entity: 'Unit', entityId, action: 'unit.edited', detail: {} };
    await db.auditEntry.create({ data: { ...row, userId: person.id } });
    await db.auditEntry.create({ data: row });
    expect((await changesOf(db, 'Unit', entityId)).map((c) => c.by)).toEqual(['The program', 'Idris Fenn']);
    expect((await changesOf(db, 'Unit', entityId, 1)).map((c) => c.by)).toEqual(['The program']);
    expect(await changesOf(db, 'Kitchen', entityId)).toEqual([]);
    const whole: { entityId: string; by: string }[] = [];
    for await (const some of auditAfter(db)) whole.push(...some);
    expect(whole.filter((e) => e.entityId === entityId).map((e) => e.by)).toEqual(['Idris Fenn', 'The program']);
  });
});
