import { beforeEach, describe, expect, it } from 'vitest';
import type { EntryKind, Payloads } from '@/lib/core/tablet';
import { visitsOnFile } from '@/lib/features/tablet/reads/visits-on-file';
import { useDatabase } from '../../support/database';
import { jobRow, unitRow, visitRow } from '../../support/factories';
import { haveVisit, MORNING, officeTold, Tablet } from './a-tablet';

const database = useDatabase();
const minutes = (n: number) => new Date(MORNING.getTime() + n * 60_000);
let shop: Awaited<ReturnType<typeof haveVisit>>;
let tablet: Tablet;
/** One entry of the tablet, taken in. */
async function enter<K extends EntryKind>(kind: K, payload: Payloads[K], by = tablet) {
  const entry = by.make(shop.visit.id, kind, payload);
  const { results } = await by.send([entry]);
  return { id: entry.id, answer: results[0] };
}
const wanted = (over: Partial<Payloads['follow_up.add']> = {}) => ({
  ...{ unitId: shop.unit.id, what: 'New gasket', urgency: 'next' as const, note: '' },
  ...over,
});
const strike = (what: Payloads['entry.strike']['what'], entryId: string, by = tablet) =>
  enter('entry.strike', { what, entryId, why: 'Slip' }, by);
const job = (id: string) =>
  database.db.job.findUniqueOrThrow({ where: { id }, include: { units: true, events: { orderBy: { seq: 'asc' } } } });
const shown = async () => (await visitsOnFile(database.db, [shop.visit.id], null))[0];

beforeEach(async () => {
  shop = await haveVisit(database.db);
  tablet = new Tablet(database.db, shop.person);
});

describe('work that a technician wants', () => {
  it.each([
    ['now', { urgency: 'now', needsQuote: false, dueOn: new Date('2026-11-25') }],
    ['soon', { urgency: 'week', needsQuote: false, dueOn: new Date('2026-11-28') }],
    ['next', { urgency: 'next_visit', needsQuote: false, dueOn: null }],
    ['quote', { urgency: 'next_visit', needsQuote: true, dueOn: null }],
  ] as const)('%s is a job of its unit with the day to go back on, found at this visit by him', async (urgency, kept) => {
    const { id, answer } = await enter('follow_up.add', wanted({ urgency, note: 'Left door' }));
    expect(await job(id)).toMatchObject({
      ...kept, state: 'asked', source: 'finding', what: 'New gasket', note: 'Left door', cause: '', foundVisitId: shop.visit.id,
      kitchenId: shop.kitchen.id, units: [{ unitId: shop.unit.id }], events: [{ kind: 'opened', byUserId: shop.person.id }],
    }); // prettier-ignore
    const told = await officeTold(database.db, answer);
    if (urgency === 'now') expect(told).toBe('Reach-in stays off until somebody has worked on it: New gasket. Ring the kitchen.');
    else expect(told).toBe('');
    expect((await shown())?.entries.followUps).toMatchObject([{ id, what: 'New gasket', urgency, note: 'Left door' }]);
    // What was found here is among what was wanted here, not among what is to be done.
    expect((await shown())?.jobs).toEqual([]);
  });

  it('about a part that was found failed before goes on with that job, as urgent as the more urgent of the two', async () => {
    const first = await enter('follow_up.add', wanted({ what: 'Drain and pan: frozen', urgency: 'soon' }));
    const again = await enter('follow_up.add', wanted({ what: 'Drain and pan: blocked', urgency: 'quote' }));
    expect(await database.db.job.count({ where: { kitchenId: shop.kitchen.id } })).toBe(1);
    expect(await job(first.id)).toMatchObject({
      what: 'Drain and pan: blocked',
      urgency: 'week',
      needsQuote: true,
      dueOn: new Date('2026-11-28'),
    });
    await enter('follow_up.add', wanted({ what: 'Drain and pan: frozen', urgency: 'now' }));
    const after = await job(first.id);
    expect(after).toMatchObject({ what: 'Drain and pan: frozen', urgency: 'now', dueOn: new Date('2026-11-25'), needsQuote: true });
    expect(after.events.map((e) => [e.kind, e.reason])).toEqual([
      ['opened', ''],
      ['found_again', 'Drain and pan: blocked'],
      ['found_again', 'Drain and pan: frozen'],
    ]);
    expect(after.events[1]).toMatchObject({ id: again.id, visitId: shop.visit.id, byUserId: shop.person.id });
  });

  it('about another unit, another part, or in words of his own is a job of its own; so is one after the old was settled', async () => {
    const { db } = database;
    const first = await enter('follow_up.add', wanted({ what: 'Drain and pan: frozen' }));
    const other = await db.unit.create({ data: unitRow(shop.kitchen.id, { name: 'Walk-in' }) });
    await enter('follow_up.add', wanted({ what: 'Drain and pan: frozen', unitId: other.id }));
    await enter('follow_up.add', wanted());
    await enter('follow_up.add', wanted());
    expect(await db.job.count({ where: { kitchenId: shop.kitchen.id } })).toBe(4);
    const closed = { state: 'done', closedAt: minutes(30), closedById: shop.person.id, closedNote: 'Cleared' } as const;
    await db.job.update({ where: { id: first.id }, data: closed });
    const second = await enter('follow_up.add', wanted({ what: 'Drain and pan: frozen' }));
    expect((await job(second.id)).foundVisitId).toBe(shop.visit.id);
    expect((await job(first.id)).closedNote).toBe('Cleared');
  });

  it('and is taken back goes, unless somebody has taken it up; a mark on an older job is only struck', async () => {
    const { db } = database;
    const slip = await enter('follow_up.add', wanted());
    expect((await strike('follow_up', slip.id)).answer).toMatchObject({ outcome: 'applied' });
    expect(await db.job.count({ where: { id: slip.id } })).toBe(0);
    const taken = await enter('follow_up.add', wanted({ what: 'Drain and pan: frozen' }));
    const mark = await enter('follow_up.add', wanted({ what: 'Drain and pan: blocked' }));
    await strike('follow_up', mark.id);
    const after = await job(taken.id);
    expect(after.events.map((e) => [e.kind, e.aboutId])).toEqual([
      ['opened', null],
      ['found_again', null],
      ['taken_back', mark.id],
    ]);
    expect((await shown())?.entries.followUps.map((f) => f.id)).toEqual([taken.id]);
    const late = await strike('follow_up', taken.id);
    expect(late.answer).toMatchObject({ outcome: 'conflict', note: expect.stringContaining('not there any more') });
    expect(await job(taken.id)).toMatchObject({ state: 'asked' });
  });
});

describe('jobs that a tablet is given to do', () => {
  it('are those booked on the visit, and what else is open in the kitchen while it lasts and waits for nobody', async () => {
    const { db } = database;
    const other = await haveVisit(db);
    const later = await db.visit.create({ data: visitRow(shop.kitchen.id, shop.person.id, minutes(24 * 60), 60) });
    const put = async (what: string, over: Parameters<typeof jobRow>[1] = {}, unit = shop.unit) =>
      void (await db.job.create({ data: jobRow(unit, { what, ...over }) }));
    await put('Open');
    await put('Agreed', { state: 'agreed' });
    await put('Booked here', { state: 'booked', visitId: shop.visit.id });
    await put('Booked later', { state: 'booked', visitId: later.id });
    await put('Wants a quote', { needsQuote: true });
    await put('Wants a part', { state: 'agreed', partsWanted: true });
    await put('Declined', { state: 'declined', closedAt: MORNING, closedById: shop.person.id, closedNote: 'Sold' });
    await put('Elsewhere', {}, other.unit);
    const jobs = async (id: string) => (await visitsOnFile(db, [id, other.visit.id], null)).find((v) => v.id === id)?.jobs;
    expect((await jobs(shop.visit.id))?.map((j) => [j.what, j.booked]).toSorted()).toEqual([
      ['Agreed', false],
      ['Booked here', true],
      ['Open', false],
    ]);
    expect((await jobs(shop.visit.id))?.every((j) => j.unitIds.join() === shop.unit.id)).toBe(true);
    await db.$transaction(async (tx) => {
      await tx.visitTask.updateMany({ where: { visitId: shop.visit.id }, data: { outcome: 'not_done', reason: 'Closed', open: false } });
      await tx.job.deleteMany({ where: { visitId: shop.visit.id } });
      await tx.visit.update({ where: { id: shop.visit.id }, data: { status: 'done', closedAt: minutes(60) } });
    });
    expect(await jobs(shop.visit.id)).toEqual([]);
  });
});

describe('what stands beside one another and is taken back', () => {
  it('goes as if it had never been, each of its kind, and the entries keep what they said', async () => {
    const { db } = database;
    const unitId = shop.unit.id;
    const at = MORNING.toISOString();
    const part = await enter('part.use', { unitId, what: 'Belt', quantity: 1 });
    const event = await enter('event.add', { unitId, kind: 'fan_replaced', at, note: '', cause: null });
    const photo = { unitId, sha256: 'd'.repeat(64), aspect: null, phase: 'before' as const, bytes: 1000, takenAt: at };
    const picture = await enter('photo.attach', photo);
    const whole = await enter('photo.attach', { ...photo, unitId: null, sha256: 'e'.repeat(64) });
    const rows = async () => [
      await db.partUsed.count({ where: { visitId: shop.visit.id } }),
      await db.unitEvent.count({ where: { visitId: shop.visit.id } }),
      await db.photo.count({ where: { visitId: shop.visit.id } }),
    ];
    expect(await rows()).toEqual([1, 1, 2]);
    await strike('part', part.id);
    expect(await rows()).toEqual([0, 1, 2]);
    await strike('event', event.id);
    expect(await rows()).toEqual([0, 0, 2]);
    await strike('photo', picture.id);
    expect(await rows()).toEqual([0, 0, 1]);
    expect(await db.photo.findUnique({ where: { id: whole.id } })).toMatchObject({ unitId: null, byUserId: shop.person.id });
    expect(await db.entry.count({ where: { visitId: shop.visit.id, outcome: 'applied' } })).toBe(7);
    // Of another visit nothing is taken away.
    const other = await haveVisit(db);
    const theirs = await db.partUsed.create({ data: { visitId: other.visit.id, what: 'Rags', quantity: 1, at: MORNING } });
    expect((await strike('part', theirs.id)).answer).toMatchObject({
      outcome: 'conflict',
      note: expect.stringContaining('not there any more'),
    });
    expect(await db.partUsed.count({ where: { id: theirs.id } })).toBe(1);
  });

  it('a warning about food is told once by two who stood side by side, and twice where the box was at another temperature', async () => {
    const { db } = database;
    const second = new Tablet(db, shop.person);
    const warning = { unitId: shop.unit.id, boxK: 284, toldTo: 'Chef Ilse', toldAt: minutes(3).toISOString(), note: '' };
    const told = () => db.foodWarning.count({ where: { visitId: shop.visit.id } });
    await enter('food_warning.add', warning);
    await enter('food_warning.add', { ...warning, boxK: 284.8, toldTo: ' chef  ILSE' }, second);
    expect(await told()).toBe(1);
    for (const other of [{ boxK: 290 }, { toldTo: 'The owner' }, { toldAt: minutes(-120).toISOString() }])
      await enter('food_warning.add', { ...warning, ...other }, second);
    expect(await told()).toBe(4);
  });

  it('a signature is a picture that can be read; anything else is refused, and the visit stays unsigned', async () => {
    const signature = { nobodyThere: false, signedBy: 'Ilse', png: Buffer.from('GIF89a, no signature').toString('base64') };
    const { answer } = await enter('signature.set', signature);
    expect(answer).toMatchObject({ outcome: 'rejected', note: 'The signature is not a PNG picture.' });
    expect(await database.db.visit.findUniqueOrThrow({ where: { id: shop.visit.id } })).toMatchObject({ signedAt: null, signedBy: '' });
    await enter('signature.set', { nobodyThere: true, signedBy: '', png: null });
    expect((await shown())?.entries.signature).toEqual({ signedBy: '', nobodyThere: true });
  });

  it('nobody writes about a unit of another kitchen, nor on a visit or a task that is not on file', async () => {
    const other = await haveVisit(database.db);
    const foreign = await enter('event.add', {
      unitId: other.unit.id,
      kind: 'fan_replaced',
      at: MORNING.toISOString(),
      note: '',
      cause: null,
    });
    expect(foreign.answer).toMatchObject({ outcome: 'rejected', note: 'Reach-in is on file at another kitchen now.' });
    const nowhere = await enter('event.add', {
      unitId: shop.visit.id,
      kind: 'fan_replaced',
      at: MORNING.toISOString(),
      note: '',
      cause: null,
    });
    expect(nowhere.answer).toMatchObject({ outcome: 'rejected', note: 'That unit is not on file.' });
    expect((await enter('task.done', { taskId: other.coil.id })).answer).toMatchObject({ note: 'That task belongs to another kitchen.' });
    expect((await enter('task.done', { taskId: shop.visit.id })).answer).toMatchObject({ note: 'That task is no longer on file.' });
    expect(await database.db.unitEvent.count({ where: { visitId: shop.visit.id } })).toBe(0);
  });
});
