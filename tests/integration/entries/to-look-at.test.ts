import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Role } from '@/lib/core/people/access';
import { countToLookAt, entriesLookedAt, entriesToLookAt, questionedOnVisit } from '@/lib/features/entries/reads/questioned';
import { settleEntry } from '@/lib/features/entries/verbs/settle-entry';
import { useDatabase } from '../../support/database';
import { jobRow, personRow } from '../../support/factories';
import { havePicture } from '../../support/pictures';
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

describe('what an entry speaks of', () => {
  it('is named as far as it is on file: a job, a picture, a visit it names apart, and who wrote it on which tablet', async () => {
    const { db } = database;
    const { visit, unit, kitchen, person } = await haveVisit(db);
    await db.user.update({ where: { id: person.id }, data: { name: 'Tova Lind' } });
    const tablet = new Tablet(db, person);
    const job = await db.job.create({ data: jobRow(unit, { what: 'Door hangs' }) });
    const picture = await havePicture(db, new Uint8Array(50).fill(3));
    const photo = {
      unitId: unit.id,
      sha256: picture.sha256,
      aspect: null,
      phase: 'before' as const,
      bytes: 50,
      takenAt: MORNING.toISOString(),
    };
    const said = [
      tablet.make(visit.id, 'job.outcome', { jobId: job.id, outcome: 'sold' as never, note: '' }),
      tablet.make(visit.id, 'photo.attach', { ...photo, phase: 'sideways' as never }),
    ];
    await tablet.send(said);
    const [outcome, attached] = [await find(said[0]?.id ?? ''), await find(said[1]?.id ?? '')];
    expect(outcome).toMatchObject({
      by: 'Tova Lind',
      device: 'Tablet',
      kind: 'job.outcome',
      madeAt: Date.parse(said[0]?.madeAt ?? ''),
      fileId: null,
    });
    expect(outcome?.names[job.id]).toBe(`${job.number}. Door hangs`);
    expect(attached).toMatchObject({ fileId: picture.id, unit: { id: unit.id }, receivedAt: tablet.clock.getTime() + 60_000 });
    // The visit came back from a backup after the entry had come in without it.
    const { id } = await db.entry.create({
      data: {
        ...{ id: randomUUID(), deviceId: tablet.id, userId: person.id, deviceSeq: 99, kind: 'visit.start', version: 1, payload: {} },
        ...{ madeAt: MORNING, receivedAt: noon, outcome: 'rejected', detail: { v: 1, note: 'No', visitId: visit.id.toUpperCase() } },
      },
    });
    await db.device.update({ where: { id: tablet.id }, data: { name: '' } });
    expect(await find(id)).toMatchObject({
      ...{ visit: { id: visit.id, startsAt: MORNING.getTime() }, kitchen: { id: kitchen.id }, device: 'tablet', note: 'No', unit: null },
    });
  });

  it('is what it was called, in the words of its kind, where it is taken back', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    const at = MORNING.toISOString();
    const [noted, bare] = [
      tablet.make(visit.id, 'event.add', { unitId: unit.id, kind: 'fan_replaced', at, note: 'Seized', cause: null }),
      tablet.make(visit.id, 'event.add', {
        unitId: unit.id,
        kind: 'note',
        at: new Date(MORNING.getTime() - 9e6).toISOString(),
        note: '',
        cause: null,
      }),
    ];
    const strikes = [noted, bare].flatMap((e) =>
      [1, 2].map(() => tablet.make(visit.id, 'entry.strike', { what: 'event', entryId: e.id, why: 'Slip' })),
    );
    await tablet.send([noted, bare, ...strikes]);
    const names = (await find(strikes[3]?.id ?? ''))?.names ?? {};
    const [of, without] = [(await find(strikes[1]?.id ?? ''))?.names[noted.id], names[bare.id]];
    expect(of).toMatch(/: Seized$/);
    expect(without).toBe(of?.replace(': Seized', ''));
  });

  it('that was looked at stands by when, the last first', async () => {
    const { refused, asked } = await haveThree();
    await settleEntry({ db: database.db, actor: owner, now: new Date(noon.getTime() + 2000) }, { entryId: asked.id, note: '' });
    await settleEntry({ db: database.db, actor: owner, now: new Date(noon.getTime() + 3000) }, { entryId: refused.id, note: '' });
    const [first, second] = await entriesLookedAt(database.db, 2);
    expect([first?.id, second?.id]).toEqual([refused.id, asked.id]);
    expect(first?.settled).toEqual({ by: 'Maren Oake', at: noon.getTime() + 3000, note: '' });
    // Looked at without a word, the next is told who, and no more.
    await expect(settle(asked.id)).rejects.toMatchObject({
      message: 'Maren Oake has looked at this one already. Load the page again to see what is left.',
    });
    await expect(settle(randomUUID())).rejects.toMatchObject({ message: 'That entry does not wait for anyone.' });
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
