import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Role } from '@/lib/core/people/access';
import { countToLookAt, entriesLookedAt, entriesToLookAt, questionedOnVisit } from '@/lib/features/entries/reads/questioned';
import { settleEntry } from '@/lib/features/entries/verbs/settle-entry';
import { useDatabase } from '../../support/database';
import { personRow } from '../../support/factories';
import { finding, haveVisit, MORNING, Tablet } from '../tablet/a-tablet';

const database = useDatabase();
const noon = new Date('2026-11-25T19:00:00Z');
const MOST = 1000;

let owner: { userId: string; role: Role };
let dispatcher: { userId: string; role: Role };
beforeAll(async () => {
  const { db } = database;
  const maren = await db.user.create({ data: personRow({ name: 'Maren Oake', role: 'owner' }) });
  const idris = await db.user.create({ data: personRow({ name: 'Idris Fenn', role: 'dispatcher' }) });
  owner = { userId: maren.id, role: 'owner' };
  dispatcher = { userId: idris.id, role: 'dispatcher' };
});

const find = async (id: string) => (await entriesToLookAt(database.db, MOST)).find((e) => e.id === id);
const settle = (entryId: string, actor = dispatcher, note = '') => settleEntry({ db: database.db, actor, now: noon }, { entryId, note });

/** A visit on whose unit one entry was filed, one filed with a question and one not filed. */
async function haveThree() {
  const { db } = database;
  const made = await haveVisit(db);
  const tablet = new Tablet(db, made.person);
  const filed = tablet.make(made.visit.id, 'finding.set', finding(made.unit.id, 'condenser_fan', 'sound'));
  const refused = tablet.make(made.visit.id, 'finding.set', { ...finding(made.unit.id, 'coil', 'bare'), grade: 'sparkling' as never });
  await tablet.send([filed, refused]);
  await db.unit.update({ where: { id: made.unit.id }, data: { archivedAt: MORNING } });
  const asked = tablet.make(made.visit.id, 'part.use', { unitId: made.unit.id, what: 'Fan belt', quantity: 2 });
  await tablet.send([asked]);
  return { ...made, tablet, filed, refused, asked };
}

describe('what the office has to look at', () => {
  it('is every entry that was not simply filed, the last to come in first, with where it belongs', async () => {
    const { db } = database;
    const before = await countToLookAt(db);
    const { visit, unit, kitchen, customer, person, filed, refused, asked } = await haveThree();
    expect(await countToLookAt(db)).toBe(before + 2);
    const list = await entriesToLookAt(db, MOST);
    expect(list.slice(0, 2).map((e) => e.id)).toEqual([asked.id, refused.id]);
    expect(list.map((e) => e.id)).not.toContain(filed.id);
    expect(list[1]).toMatchObject({
      outcome: 'rejected',
      note: expect.stringContaining('“grade” is none of what the office knows'),
      by: person.name,
      device: 'Tablet',
      timeZone: 'America/Denver',
      kitchen: { id: kitchen.id, customer: { id: customer.id, name: customer.name } },
      visit: { id: visit.id, startsAt: MORNING.getTime() },
      unit: { id: unit.id, name: unit.name },
      payload: { grade: 'sparkling' },
      settled: null,
    });
    expect((await questionedOnVisit(db, visit.id)).map((e) => e.id)).toEqual([refused.id, asked.id]);
    expect(await entriesToLookAt(db, 1)).toHaveLength(1);
  });

  it('holds an entry whose visit is not on file, placed by its unit or its task', async () => {
    const { db } = database;
    const { unit, coil, kitchen, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    const gone = randomUUID();
    const onUnit = tablet.make(gone, 'finding.set', finding(unit.id, 'coil', 'matted'));
    const onTask = tablet.make(gone, 'task.done', { taskId: coil.id });
    const nowhere = tablet.make(gone, 'visit.start', { arrivedAt: MORNING.toISOString() });
    await tablet.send([onUnit, onTask, nowhere]);
    expect((await db.entry.findUniqueOrThrow({ where: { id: onUnit.id } })).visitId).toBeNull();
    const place = { visit: null, unit: { id: unit.id }, kitchen: { id: kitchen.id } };
    expect(await find(onUnit.id)).toMatchObject(place);
    expect(await find(onTask.id)).toMatchObject({ ...place, names: { [coil.id]: `Coil cleaning of ${unit.name}` } });
    expect(await find(nowhere.id)).toMatchObject({ visit: null, unit: null, kitchen: null, timeZone: 'America/Denver' });
    await settle(nowhere.id);
    expect(await find(nowhere.id)).toBeUndefined();
    expect((await entriesLookedAt(db, MOST)).map((e) => e.id)).toContain(nowhere.id);
  });

  it('holds an entry of any shape, and names what a taken back one was', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    const odd = [null, 'words', 7, [unit.id], { unitId: 5, taskId: 'x', entryId: {} }].map((payload) =>
      tablet.make(visit.id, 'finding.set', payload as never),
    );
    const part = tablet.make(visit.id, 'part.use', { unitId: unit.id, what: 'Fan belt', quantity: 1 });
    const strike = () => tablet.make(visit.id, 'entry.strike', { what: 'part', entryId: part.id, why: 'Slip' });
    const [first, second] = [strike(), strike()];
    await tablet.send([...odd, part, first, second]);
    for (const o of odd) expect(await find(o.id)).toMatchObject({ outcome: 'rejected', payload: o.payload, unit: null });
    expect((await find(second.id))?.names).toMatchObject({ [part.id]: 'Part used: Fan belt' });
  });
});

describe('an entry that was looked at', () => {
  it('leaves the list with who, when and what was done, and says what it said', async () => {
    const { db } = database;
    const { visit, refused } = await haveThree();
    const before = await countToLookAt(db);
    const row = await db.entry.findUniqueOrThrow({ where: { id: refused.id } });
    await settle(refused.id, dispatcher, 'Phoned, wrote it on file');
    expect(await countToLookAt(db)).toBe(before - 1);
    expect(await find(refused.id)).toBeUndefined();
    const settled = { by: 'Idris Fenn', at: noon.getTime(), note: 'Phoned, wrote it on file' };
    expect((await entriesLookedAt(db, MOST)).find((e) => e.id === refused.id)?.settled).toEqual(settled);
    expect((await questionedOnVisit(db, visit.id)).map((e) => e.settled)).toEqual([settled, null]);
    expect(await db.entry.findUniqueOrThrow({ where: { id: refused.id } })).toEqual({
      ...row,
      settledAt: noon,
      settledById: dispatcher.userId,
      settledNote: settled.note,
    });
  });

  it('is the first one’s: the second is told who', async () => {
    const { refused, asked } = await haveThree();
    await settle(refused.id, dispatcher, 'Phoned');
    await expect(settle(refused.id, owner, 'Mine')).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('Idris Fenn has looked at this one already: “Phoned”'),
    });
    const both = await Promise.allSettled([settle(asked.id, owner), settle(asked.id, dispatcher)]);
    expect(both.map((r) => r.status).sort()).toEqual(['fulfilled', 'rejected']);
  });

  it('is settled by the office only, and only where there is something to look at', async () => {
    const { db } = database;
    const { refused, filed, person } = await haveThree();
    await expect(settle(refused.id, { userId: person.id, role: 'technician' })).rejects.toMatchObject({ code: 'not_allowed' });
    expect(await find(refused.id)).toBeDefined();
    for (const id of [filed.id, randomUUID()]) await expect(settle(id)).rejects.toMatchObject({ code: 'not_found' });
    expect((await db.entry.findUniqueOrThrow({ where: { id: filed.id } })).settledAt).toBeNull();
  });

  it('is all that the database lets happen to an entry, once', async () => {
    const { db } = database;
    const { refused, filed } = await haveThree();
    const change = (id: string, data: object) => db.entry.update({ where: { id }, data });
    const by = { settledAt: noon, settledById: owner.userId };
    await expect(change(refused.id, { payload: {} })).rejects.toThrow(/never changed/);
    await expect(change(refused.id, { ...by, outcome: 'applied' })).rejects.toThrow(/never changed/);
    await expect(change(refused.id, { settledAt: noon })).rejects.toThrow(/entry_settled_by_someone/);
    await expect(change(refused.id, { settledNote: 'x' })).rejects.toThrow(/entry_settled_note/);
    await expect(change(filed.id, by)).rejects.toThrow(/entry_settled_has_question/);
    await change(refused.id, by);
    await expect(change(refused.id, { settledAt: null, settledById: null })).rejects.toThrow(/never changed/);
  });

  it('is counted from an index that holds only what waits', async () => {
    const { db } = database;
    const plan = await db.$transaction(async (tx) => {
      await tx.$executeRaw`SET LOCAL enable_seqscan = off`;
      return tx.$queryRaw<Record<string, string>[]>`
        EXPLAIN SELECT count(*)::int AS n FROM "Entry" WHERE outcome <> 'applied' AND "settledAt" IS NULL`;
    });
    expect(plan.map((r) => r['QUERY PLAN']).join('\n')).toContain('entry_to_look_at');
  });
});
