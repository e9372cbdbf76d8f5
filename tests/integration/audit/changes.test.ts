import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { changesOf, lastChange, peopleToAskFor } from '@/lib/features/audit/reads/audit';
import { differences, orSay, staleError, writeEdit } from '@/lib/features/audit/verbs/changes';
import { exportChanges } from '@/lib/features/audit/verbs/export-changes';
import { auditBy, writeAudit } from '@/lib/features/audit/verbs/write-audit';
import { useDatabase } from '@/tests/support/database';
import { customerRow, personRow } from '@/tests/support/factories';

const database = useDatabase();
const now = new Date('2026-03-04T18:00:00Z');
const person = personRow({ name: 'Maren Oake' });
const ctx = { actor: { userId: person.id ?? '' }, now };
beforeAll(() => database.db.user.createMany({ data: [person, personRow({ name: 'Abel Crane', active: false })] }));

describe('what differs between a record and what was typed', () => {
  it('is each field that was said and is another now, from what to what', () => {
    const before = { name: 'Oak', note: null, hours: [{ from: '07:00', to: '09:00' }], minutes: 30, archived: false };
    expect(differences(before, before)).toEqual({});
    expect(differences(before, { name: 'Pine', note: 'Ring twice', minutes: undefined, archived: true })).toEqual({
      name: ['Oak', 'Pine'],
      note: [null, 'Ring twice'],
      archived: [false, true],
    });
    // The database gives the parts back in another order than they were written in; the order of a list is said.
    expect(differences(before, { hours: [{ to: '09:00', from: '07:00' }] })).toEqual({});
    expect(Object.keys(differences({ skills: ['a', 'b'] }, { skills: ['b', 'a'] }))).toEqual(['skills']);
  });

  it('is no measure that a form showed with six digits and sent back, but every count', () => {
    const sent = (from: number, to: number) => Object.keys(differences({ x: from }, { x: to })).length > 0;
    expect([sent(310.9277777, 310.928), sent(-17.7777777, -17.7778), sent(0.3500001, 0.35)]).toEqual([false, false, false]);
    expect([sent(310.92, 310.93), sent(0.35, 0.3501), sent(0.35, -0.35), sent(0, 0.1)]).toEqual([true, true, true, true]);
    expect(sent(1_000_000, 1_000_001)).toBe(true);
  });
});

describe('a line of the history', () => {
  it('says who, when, what, of which record, and what is beside it', async () => {
    const { db } = database;
    const id = randomUUID();
    await writeEdit(
      db,
      ctx,
      { action: 'kitchen.edited', entity: 'Kitchen', id },
      { name: 'Oak', minutes: 30 },
      { name: 'Pine', minutes: 30 },
    );
    await auditBy(db, { actor: null, now }, { action: 'kitchen.archived', entity: 'Kitchen', entityId: id, detail: { units: 2 } });
    expect(await changesOf(db, 'Kitchen', id)).toMatchObject([
      { by: 'The program', action: 'kitchen.archived', changed: [], more: [['units', 2]], at: now },
      { by: 'Maren Oake', action: 'kitchen.edited', changed: [{ field: 'name', from: 'Oak', to: 'Pine' }], more: [], at: now },
    ]);
    expect(await lastChange(db, 'Kitchen', id)).toMatchObject({ by: 'Someone', action: 'kitchen.archived', fields: [] });
    expect(await lastChange(db, 'Unit', id)).toBeNull();
  });

  it('tells someone whose form is old who changed what, and what to do now', async () => {
    const { db } = database;
    const id = randomUUID();
    const told = async () => (await staleError(db, 'Unit', id, 'this unit')).message;
    const rest = 'Nothing was saved; open it again in another tab to compare, then save from there.';
    expect(await told()).toBe(`Someone changed this unit while this form was open. ${rest}`);
    await writeEdit(
      db,
      ctx,
      { action: 'unit.edited', entity: 'Unit', id },
      { chargeKg: 1, roofWork: false },
      { chargeKg: 2, roofWork: true },
    );
    expect(await told()).toBe(`Maren Oake changed this unit while this form was open (charge, roof work). ${rest}`);
    expect(await staleError(db, 'Unit', id, 'this unit')).toMatchObject({ code: 'conflict' });
  });

  it('can be asked for of whoever was ever on file, by name', async () => {
    expect((await peopleToAskFor(database.db)).map((p) => p.name)).toEqual(['Abel Crane', 'Maren Oake']);
  });
});

it('a refusal of the database is told in words beside its field; one without words, and any other fault, stays what it is', async () => {
  const { db } = database;
  await db.customer.create({ data: customerRow({ name: 'Twice' }) });
  const twice = () => db.customer.create({ data: customerRow({ name: 'Twice' }) });
  await expect(orSay(twice(), { Customer_name_key: ['That name is taken.', 'name'] })).rejects.toMatchObject({
    code: 'conflict',
    field: 'name',
    message: 'That name is taken.',
  });
  await expect(orSay(twice(), { User_email_key: ['That address is taken.', 'email'] })).rejects.toThrow(/Unique constraint/);
  await expect(orSay(Promise.reject(new Error('else')), { Customer_name_key: ['x', 'y'] })).rejects.toThrow('else');
  expect(await orSay(Promise.resolve(7), {})).toBe(7);
});

it('everything that was ever changed goes out as a file: a line a field, the first first, and no formula runs', async () => {
  const { db } = database;
  const before = await db.auditEntry.count();
  const id = randomUUID();
  const entry = { at: now, userId: ctx.actor.userId, entity: 'Unit', entityId: id };
  await writeAudit(db, {
    ...entry,
    action: 'unit.edited',
    detail: { reason: 'x', changed: { name: ['Old', '=1+1'], hours: [null, [1, 2]] } },
  });
  await writeAudit(db, { ...entry, userId: null, action: 'unit.archived' });
  // More than are read at a time.
  await db.auditEntry.createMany({ data: Array.from({ length: 1100 }, () => ({ at: now, action: 'x', entity: 'TravelTime' })) });
  let file = '';
  for await (const piece of exportChanges({ db })) file += piece;
  const lines = file.split('\r\n');
  expect(lines[0]).toBe('\uFEFFat (UTC),who,what,record,record id,field,from,to,more');
  expect(lines.filter((l) => l.includes(id))).toEqual([
    `2026-03-04T18:00:00.000Z,Maren Oake,unit.edited,Unit,${id},name,Old,'=1+1,"{""reason"":""x""}"`,
    `2026-03-04T18:00:00.000Z,Maren Oake,unit.edited,Unit,${id},hours,,"[1,2]","{""reason"":""x""}"`,
    `2026-03-04T18:00:00.000Z,The program,unit.archived,Unit,${id},,,,`,
  ]);
  expect(lines.at(-1)).toBe('');
  expect(lines.filter((l) => l.includes(',x,TravelTime,'))).toHaveLength(1100);
  expect(await db.auditEntry.count()).toBe(before + 1102);
});
