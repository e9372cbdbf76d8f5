import { randomUUID } from 'node:crypto';
import { beforeEach, describe, expect, it } from 'vitest';
import type { EntryKind, Payloads } from '@/lib/core/tablet';
import type { EntryEnvelope } from '@/lib/schemas/tablet/entries';
import { useDatabase } from '../../support/database';
import { jobRow, personRow, unitRow, visitRow, visitTaskRow } from '../../support/factories';
import { finding, haveVisit, MORNING, officeTold, Tablet } from './a-tablet';

const database = useDatabase();
const minutes = (n: number) => new Date(MORNING.getTime() + n * 60_000);
const DAY = 24 * 60;
let shop: Awaited<ReturnType<typeof haveVisit>>;
let first: Tablet;
let second: Tablet;

/** One entry of a tablet, made at the minute named and taken in ten minutes later. */
async function enter<K extends EntryKind>(by: Tablet, at: number, kind: K, payload: Payloads[K], over: Partial<EntryEnvelope> = {}) {
  const entry = by.make(shop.visit.id, kind, payload, { madeAt: minutes(at).toISOString(), ...over });
  const { results } = await by.send([entry], minutes(at + 10));
  return { id: entry.id, answer: results[0] };
}
const told = async (entered: ReturnType<typeof enter>) => officeTold(database.db, (await entered).answer);
const closing = (by: Tablet, taskIds = shop.tasks.map((t) => t.id)) => [
  by.make(shop.visit.id, 'visit.start', { arrivedAt: MORNING.toISOString() }),
  ...taskIds.map((taskId) => by.make(shop.visit.id, 'task.not_done', { taskId, reason: 'No power' })),
  by.make(shop.visit.id, 'signature.set', { nobodyThere: true, signedBy: '', png: null }),
  by.make(shop.visit.id, 'visit.close', { leftAt: minutes(30).toISOString(), taskIds }),
];
const answerOf = (taskId: string) => database.db.visitTask.findUnique({ where: { visitId_taskId: { visitId: shop.visit.id, taskId } } });

beforeEach(async () => {
  shop = await haveVisit(database.db);
  first = new Tablet(database.db, shop.person);
  second = new Tablet(database.db, shop.person);
});

describe('whose visit it is', () => {
  it('is said in words where it is another’s, was never here, or was cancelled meanwhile', async () => {
    const { db } = database;
    await first.refresh();
    const june = await db.user.create({ data: personRow({ name: 'June Castell' }) });
    await db.visit.update({ where: { id: shop.visit.id }, data: { technicianId: june.id } });
    const seen = finding(shop.unit.id, 'coil', 'matted');
    expect((await enter(first, 5, 'finding.set', seen)).answer).toMatchObject({
      outcome: 'conflict',
      note: 'The visit is June Castell’s now.',
    });
    const stranger = new Tablet(db, await db.user.create({ data: personRow() }));
    expect((await enter(stranger, 5, 'finding.set', seen)).answer).toMatchObject({
      ...{ outcome: 'rejected', note: 'That visit is June Castell’s and was never on this tablet.' },
    });
    // The office may write on any.
    const desk = await db.user.create({ data: personRow({ role: 'owner' }) });
    const office = new Tablet(db, { id: desk.id, name: desk.name, role: 'owner' });
    expect((await enter(office, 6, 'finding.set', finding(shop.unit.id, 'ice', 'dry'))).answer?.outcome).toBe('conflict');
    await db.visit.update({ where: { id: shop.visit.id }, data: { status: 'cancelled', cancelReason: 'Closed' } });
    expect((await enter(first, 7, 'finding.set', finding(shop.unit.id, 'drain', 'runs'))).answer?.note).toBe(
      'The visit is June Castell’s now. The office had cancelled the visit.',
    );
    const { answer } = await enter(first, 8, 'visit.close', { leftAt: minutes(8).toISOString(), taskIds: [] });
    expect(answer?.note).toContain('The office had cancelled this visit, but it was done. Its entries are kept; decide whether it counts.');
  });

  it('an entry on no visit at all is refused in words and keeps the visit that it names', async () => {
    const nowhere = randomUUID();
    const entry = first.make(nowhere, 'visit.start', { arrivedAt: MORNING.toISOString() });
    const { results } = await first.send([entry], minutes(9));
    expect(results).toEqual([{ id: entry.id, outcome: 'rejected', note: 'That visit is not on file.' }]);
    expect(await database.db.entry.findUniqueOrThrow({ where: { id: entry.id } })).toMatchObject({
      ...{ visitId: null, deviceSeq: 1, kind: 'visit.start', madeAt: new Date(entry.madeAt), receivedAt: minutes(9) },
      detail: { note: 'That visit is not on file.', visitId: nowhere },
    });
  });
});

describe('the time of an entry', () => {
  it('is put right by the office’s clock, and by how much is kept; what a request takes is no difference', async () => {
    const detail = async (id: string) =>
      (await database.db.entry.findUniqueOrThrow({ where: { id } })).detail as { clockCorrectedMs?: number };
    const send = async (madeAt: Date, receivedAt: Date) => {
      const entry = first.make(shop.visit.id, 'finding.set', finding(shop.unit.id, 'coil', 'bare'), { madeAt: madeAt.toISOString() });
      await first.send([entry], receivedAt);
      return { ...(await detail(entry.id)), at: (await database.db.finding.findUniqueOrThrow({ where: { id: entry.id } })).at };
    };
    expect(await send(minutes(90), minutes(30))).toMatchObject({ at: minutes(30), clockCorrectedMs: -60 * 60_000 });
    expect(await send(minutes(-90), minutes(40))).toMatchObject({ at: MORNING, clockCorrectedMs: 90 * 60_000 });
    const near = await send(new Date(minutes(50).getTime() + 900), minutes(50));
    expect([near.at, near.clockCorrectedMs]).toEqual([minutes(50), undefined]);
    expect((await send(minutes(55), minutes(60))).at).toEqual(minutes(55));
  });
});

describe('answers that differ', () => {
  it('are asked about where neither knew of the other, a batch on its way while the round was told included', async () => {
    const { coil } = shop;
    await enter(first, 5, 'task.not_done', { taskId: coil.id, reason: 'No key' });
    // The office took the first in at fifteen; a round told within two minutes after may not have had it.
    const at = (n: number) => ({ basedOn: minutes(n).toISOString() });
    const done = { taskId: coil.id };
    expect((await enter(second, 20, 'task.done', done, at(16))).answer).toMatchObject({
      outcome: 'conflict',
      note: 'Two tablets differ on coil cleaning of Reach-in: not done (No key) and done. The later stands: done.',
    });
    const third = new Tablet(database.db, shop.person);
    const why = { taskId: coil.id, reason: 'Locked again' };
    expect((await enter(third, 40, 'task.not_done', why, at(33))).answer).toMatchObject({ outcome: 'applied', note: '' });
  });

  it('about another task are no matter of this one', async () => {
    const [one, two] = shop.tasks;
    await enter(first, 5, 'task.not_done', { taskId: one!.id, reason: 'No key' });
    await database.db.visitTask.updateMany({
      where: { visitId: shop.visit.id, taskId: two!.id },
      data: { outcome: 'not_done', reason: 'No key', answeredAt: minutes(1), deviceId: first.id },
    });
    // The second task’s answer came by no entry of another tablet: nothing to ask.
    expect((await enter(second, 6, 'task.done', { taskId: two!.id })).answer).toMatchObject({ outcome: 'applied', note: '' });
  });

  it('an earlier made one that comes late is kept as said, and does not stand', async () => {
    const { unit, visit } = shop;
    await enter(first, 9, 'unit.outcome', { unitId: unit.id, outcome: 'could_not_reach', reason: 'Full of stock' });
    expect((await enter(second, 5, 'unit.outcome', { unitId: unit.id, outcome: 'seen', reason: '' })).answer?.note).toBe(
      'Two tablets differ on Reach-in: could not be reached (Full of stock) and seen. The later stands: could not be reached (Full of stock).',
    );
    const standing = () => database.db.unitVisit.findFirstOrThrow({ where: { visitId: visit.id } });
    expect(await standing()).toMatchObject({ outcome: 'could_not_reach', deviceId: first.id, at: minutes(9) });
    const gone = enter(first, 20, 'unit.outcome', { unitId: unit.id, outcome: 'gone', reason: 'Sold in May.' });
    expect(await told(gone)).toBe('Reach-in is gone: Sold in May. Take it out of use, or ask the kitchen.');
    expect(await standing()).toMatchObject({ outcome: 'gone', reason: 'Sold in May.', at: minutes(20) });
  });

  it('of two grades the later stands and both are said; not looked at, for whatever reason, is the same', async () => {
    const { unit } = shop;
    await enter(first, 5, 'finding.set', finding(unit.id, 'drain', null));
    const same = await enter(second, 6, 'finding.set', finding(unit.id, 'drain', null, { notLookedWhy: 'No light' }));
    expect(same.answer).toMatchObject({ outcome: 'applied', note: '' });
    const differs = await enter(first, 7, 'finding.set', finding(unit.id, 'drain', 'runs'));
    expect(differs.answer?.note).toMatch(
      /^Two entries for .*drain.* of Reach-in: not looked at \(No light\) and runs.*The later made one stands: runs/i,
    );
    expect(await database.db.finding.count({ where: { unitId: unit.id, supersededAt: null } })).toBe(1);
  });

  it('of two signatures the later stands, and both tablets hear of it; “nobody there” twice is one answer', async () => {
    const png = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';
    const nobody = { nobodyThere: true, signedBy: '', png: null };
    const by = (signedBy: string) => ({ nobodyThere: false, signedBy, png });
    await enter(first, 3, 'signature.set', nobody);
    expect((await enter(second, 4, 'signature.set', nobody)).answer).toMatchObject({ outcome: 'applied', note: '' });
    expect((await enter(first, 5, 'signature.set', by('Ilse'))).answer?.note).toBe(
      'One tablet says that nobody was there, another has a signature; the signature stands.',
    );
    expect((await enter(second, 6, 'signature.set', by('Otto'))).answer?.note).toBe(
      'The visit was signed on two tablets; the later signature stands.',
    );
    const visit = () => database.db.visit.findUniqueOrThrow({ where: { id: shop.visit.id } });
    expect(await visit()).toMatchObject({ signedBy: 'Otto', nobodyThere: false, signedAt: minutes(6), signedOn: second.id });
    // Made before Otto signed, it comes after: he stands.
    await enter(first, 2, 'signature.set', by('Nora'));
    expect((await visit()).signedBy).toBe('Otto');
  });
});

describe('a job of the visit', () => {
  const say = (by: Tablet, at: number, jobId: string, outcome: Payloads['job.outcome']['outcome'], note = '') =>
    enter(by, at, 'job.outcome', { jobId, outcome, note });

  it('must be of this kitchen; two tablets that differ on it are told', async () => {
    const { db } = database;
    const other = await haveVisit(db);
    const foreign = await db.job.create({ data: jobRow(other.unit) });
    expect((await say(first, 3, foreign.id, 'done')).answer).toMatchObject({
      ...{ outcome: 'rejected', note: `Job ${foreign.number} is of another kitchen.` },
    });
    expect((await say(first, 4, randomUUID(), 'done')).answer?.note).toBe('That job is not on file.');
    const job = await db.job.create({ data: jobRow(shop.unit, { state: 'booked', visitId: shop.visit.id }) });
    await say(first, 5, job.id, 'done');
    expect((await say(second, 7, job.id, 'needs_part', 'Fan motor')).answer).toMatchObject({
      outcome: 'conflict',
      note: `Two tablets differ on job ${job.number}: done and needs a part. The later stands.`,
    });
    // Two who say the same of it are of one mind.
    const same = await db.job.create({ data: jobRow(shop.unit, { state: 'booked', visitId: shop.visit.id }) });
    await say(first, 5, same.id, 'done');
    expect((await say(second, 7, same.id, 'done')).answer).toMatchObject({ outcome: 'applied', note: '' });
    // An older one that comes late changes nothing.
    await say(first, 6, job.id, 'found_right');
    const standing = await db.jobOutcome.findFirstOrThrow({ where: { jobId: job.id } });
    expect(standing).toMatchObject({ outcome: 'needs_part', note: 'Fan motor', deviceId: second.id, byUserId: shop.person.id });
  });

  it('that is closed by then, or whose visit was cancelled, is the office’s to look at', async () => {
    const { db } = database;
    const closed = await db.job.create({ data: jobRow(shop.unit, { state: 'done', closedAt: MORNING, visitId: shop.visit.id }) });
    expect(await told(say(first, 3, closed.id, 'needs_part', 'Fan motor'))).toBe(
      `Job ${closed.number} was closed by then; the tablet says: needs a part. Fan motor`,
    );
    const open = await db.job.create({ data: jobRow(shop.unit) });
    await db.visit.update({ where: { id: shop.visit.id }, data: { status: 'cancelled', cancelReason: 'Closed' } });
    const late = await say(first, 4, open.id, 'done');
    const filed = await db.entry.findUniqueOrThrow({ where: { id: late.id } });
    expect((filed.detail as { note: string }).note).toContain(`The visit was cancelled; the tablet says of job ${open.number}: done.`);
    expect((await db.job.findUniqueOrThrow({ where: { id: open.id } })).state).toBe('asked');
  });
});

describe('a task', () => {
  const later = async (over = {}) =>
    database.db.visit.create({ data: visitRow(shop.kitchen.id, shop.person.id, minutes(3 * DAY), 60, over) });
  const takeOff = () => database.db.visitTask.deleteMany({ where: { visitId: shop.visit.id, taskId: shop.coil.id } });

  it('taken off the visit by the office and not done is said; done on it though booked elsewhere, it is booked there still', async () => {
    await takeOff();
    expect(await told(enter(first, 3, 'task.not_done', { taskId: shop.coil.id, reason: 'No water' }))).toBe(
      'Coil cleaning of Reach-in was taken off this visit by the office; it was not done either.',
    );
    expect(await answerOf(shop.coil.id)).toBeNull();
    const { id } = await later();
    await database.db.visitTask.create({ data: visitTaskRow(id, shop.coil) });
    expect(await told(enter(first, 4, 'task.done', { taskId: shop.coil.id }))).toBe(
      'Coil cleaning of Reach-in was moved to another visit by the office, and was done on this one. Cancel it there, or have it done again.',
    );
    expect(await database.db.visitTask.count({ where: { taskId: shop.coil.id } })).toBe(1);
  });

  it('done though taken off counts, and stands open with its visit', async () => {
    await takeOff();
    expect(await told(enter(first, 3, 'task.done', { taskId: shop.coil.id }))).toBe(
      'Coil cleaning of Reach-in was taken off this visit by the office but was done; it counts.',
    );
    expect(await answerOf(shop.coil.id)).toMatchObject({
      outcome: 'done',
      reason: '',
      open: true,
      deviceId: first.id,
      answeredAt: minutes(3),
    });
  });

  it('taken on that stands on a visit which has begun is asked about, and moves nowhere', async () => {
    await takeOff();
    const { id } = await later({ status: 'started', arrivedAt: MORNING });
    await database.db.visitTask.create({ data: visitTaskRow(id, shop.coil) });
    expect(await told(enter(first, 3, 'task.take', { taskId: shop.coil.id, unitId: shop.unit.id }))).toBe(
      'Coil cleaning of Reach-in was taken on here, and stands on a visit that has begun as well: see which of the two it was done on.',
    );
    expect(await answerOf(shop.coil.id)).toBeNull();
    const other = await database.db.unit.create({ data: unitRow(shop.kitchen.id, { name: 'Other' }) });
    expect((await enter(first, 4, 'task.take', { taskId: shop.coil.id, unitId: other.id })).answer).toMatchObject({
      ...{ outcome: 'rejected', note: 'That task is not on file.' },
    });
  });

  it('taken on over a later booking says which day it was booked for', async () => {
    await takeOff();
    const { id } = await later();
    await database.db.visitTask.create({ data: visitTaskRow(id, shop.coil) });
    expect(await told(enter(first, 3, 'task.take', { taskId: shop.coil.id, unitId: shop.unit.id }))).toMatch(
      /^Coil cleaning of Reach-in was booked for .*28.* and was taken on now; it is off that visit\.$/,
    );
    expect(await database.db.visitTask.findMany({ where: { taskId: shop.coil.id } })).toMatchObject([
      { visitId: shop.visit.id, open: true },
    ]);
  });

  it('answered after the closing: what counted as done and is said not to be is asked, its dates stand', async () => {
    const { db } = database;
    const drain = shop.tasks.find((t) => t.kindKey === 'drain_inspection');
    if (!drain) throw new Error('no drain inspection');
    const batch = closing(first).map((e) =>
      e.kind === 'task.not_done' && (e.payload as { taskId: string }).taskId === drain.id
        ? { ...e, kind: 'task.done', payload: { taskId: drain.id } }
        : e,
    );
    const look = [
      second.make(shop.visit.id, 'finding.set', finding(shop.unit.id, 'drain', 'runs')),
      second.make(shop.visit.id, 'finding.set', finding(shop.unit.id, 'ice', 'dry')),
    ];
    await second.send(look, minutes(20));
    const closed = await first.send(batch, minutes(31));
    expect(closed.results.filter((r) => r.outcome !== 'applied')).toEqual([]);
    const dates = await db.task.findUniqueOrThrow({ where: { id: drain.id } });
    expect(dates.lastDoneOn).toEqual(new Date('2026-11-25'));
    first.basedOn = minutes(35);
    const { answer } = await enter(first, 40, 'task.not_done', { taskId: drain.id, reason: 'Wrong unit' });
    expect(answer).toMatchObject({ outcome: 'conflict', note: 'It counted as done when the visit was closed; its dates still say so.' });
    expect(await db.task.findUniqueOrThrow({ where: { id: drain.id } })).toEqual(dates);
    expect(await answerOf(drain.id)).toMatchObject({ outcome: 'not_done', reason: 'Wrong unit' });
  });

  it('that the office added while the tablet was away goes back on the list as the visit closes, and the office reads how many', async () => {
    const { results } = await first.send(
      closing(
        first,
        shop.tasks.slice(1).map((t) => t.id),
      ),
      minutes(31),
    );
    expect(await officeTold(database.db, results.at(-1))).toBe(
      '1 task(s) added while the tablet was away were not done; they are on the due list again.',
    );
    const added = await answerOf(shop.tasks[0]!.id);
    expect(added).toMatchObject({ outcome: 'not_done', open: false, answeredAt: minutes(31) });
    expect(added?.reason).toBe('Added by the office after the tablet last heard from it.');
    expect(await database.db.visit.findUniqueOrThrow({ where: { id: shop.visit.id } })).toMatchObject({
      ...{ status: 'done', leftAt: minutes(30), closedAt: minutes(31) },
    });
    expect(await database.db.visitEvent.findMany({ where: { visitId: shop.visit.id }, orderBy: { at: 'asc' } })).toMatchObject([
      { kind: 'started', at: MORNING, byUserId: shop.person.id },
      { kind: 'closed', at: minutes(31), byUserId: shop.person.id },
    ]);
  });
});

describe('what two people wrote down', () => {
  const said = (over: Partial<Payloads['part.use']> = {}) => ({ unitId: shop.unit.id, what: 'Fan clip', quantity: 2, ...over });
  const parts = () => database.db.partUsed.count({ where: { visitId: shop.visit.id } });

  it('is two things where unit, number or name differ, and one again for a third who says the same', async () => {
    const other = await database.db.unit.create({ data: unitRow(shop.kitchen.id, { name: 'Other' }) });
    await enter(first, 3, 'part.use', said());
    for (const [i, over] of [{ quantity: 1 }, { what: 'Fan belt' }, { unitId: other.id }].entries()) {
      await enter(second, 4 + i, 'part.use', said(over));
      expect(await parts()).toBe(2 + i);
    }
    const third = new Tablet(database.db, shop.person);
    await enter(third, 8, 'part.use', said({ what: 'fan  CLIP' }));
    expect(await parts()).toBe(4);
  });

  it('and was taken back by its writer is a new one when another says it', async () => {
    const { id } = await enter(first, 3, 'part.use', said());
    await enter(first, 4, 'entry.strike', { what: 'part', entryId: id, why: 'Slip' });
    expect(await parts()).toBe(0);
    await enter(second, 5, 'part.use', said());
    expect(await parts()).toBe(1);
    // Its own was never a row: taking it back takes nothing of the other’s.
    const twin = await enter(first, 6, 'part.use', said());
    expect(await parts()).toBe(1);
    await enter(first, 7, 'entry.strike', { what: 'part', entryId: twin.id, why: 'Slip' });
    expect(await parts()).toBe(1);
  });

  it('of an event within the hour is one, and two where the kind, the words or the hour are others', async () => {
    const event = (over: Partial<Payloads['event.add']> = {}) => ({
      ...{ unitId: shop.unit.id, kind: 'high_pressure_trip' as const, at: minutes(3).toISOString(), note: 'Twice', cause: null },
      ...over,
    });
    const events = () => database.db.unitEvent.count({ where: { visitId: shop.visit.id } });
    await enter(first, 200, 'event.add', event());
    await enter(second, 201, 'event.add', event({ at: minutes(62).toISOString() }));
    expect(await events()).toBe(1);
    for (const over of [{ at: minutes(63).toISOString() }, { note: 'Once' }, { kind: 'fan_replaced' as const }])
      await enter(second, 202, 'event.add', event(over));
    expect(await events()).toBe(4);
  });
});
