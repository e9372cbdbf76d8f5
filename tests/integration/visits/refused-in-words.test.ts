import { beforeEach, describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { offerSqueeze } from '@/lib/features/planning/verbs/offer-squeeze';
import { visitToManage } from '@/lib/features/visits/reads/visits';
import { bookVisit } from '@/lib/features/visits/verbs/book-visit';
import { cancelVisit } from '@/lib/features/visits/verbs/cancel-visit';
import { changeVisit } from '@/lib/features/visits/verbs/change-visit';
import { closeVisit } from '@/lib/features/visits/verbs/close-visit';
import { giveVisit } from '@/lib/features/visits/verbs/give-visit';
import { moveVisit } from '@/lib/features/visits/verbs/move-visit';
import { reviseVisit } from '@/lib/features/visits/verbs/revise-visit';
import { squeezeEmergency } from '@/lib/features/visits/verbs/squeeze-in';
import type { BookVisit, ChangeVisit, MoveVisit } from '@/lib/schemas/visits/visits';
import type { SqueezeTake } from '@/lib/schemas/visits/squeeze';
import { useDatabase } from '../../support/database';
import { ANY_TIME, haveOneUnit, jobRow, personRow, visitRow, visitTaskRow } from '../../support/factories';

const database = useDatabase();
// A Monday, 08:00 in Denver.
const now = new Date('2026-11-30T15:00:00Z');
const nine = new Date('2026-11-30T16:00:00Z');
const HOUR = 3_600_000;
const monday = localDate('2026-11-30');
const NOBODY = '00000000-0000-4000-8000-000000000000';

type Made = Awaited<ReturnType<typeof haveOneUnit>>;
let made: Made;
let desk: { userId: string };
const ctx = () => ({ db: database.db, actor: desk, now, baseUrl: 'http://localhost:3000' });
const kitchen = (name: string, unit = {}) =>
  haveOneUnit(database.db, {
    kitchen: { name, serviceHours: [], contactEmail: 'chef@example.com' },
    unit,
    person: { shifts: ANY_TIME },
  });
const somebody = async (over: Parameters<typeof personRow>[0]) =>
  (await database.db.user.create({ data: personRow({ shifts: ANY_TIME, ...over }) })).id;
/** A visit of the first kitchen's drain inspection, 09:00 to 10:00. */
async function standing(over: Parameters<typeof visitRow>[4] = {}, at = nine) {
  const visit = await database.db.visit.create({ data: visitRow(made.kitchen.id, made.person.id, at, 60, over) });
  const open = visit.status === 'booked' || visit.status === 'started';
  await database.db.visitTask.create({ data: visitTaskRow(visit.id, made.tasks[1]!, { open }) });
  return visit.id;
}
const onFile = (id: string) =>
  database.db.visit.findUniqueOrThrow({ where: { id }, include: { tasks: true, events: { orderBy: { at: 'asc' } } } });
const letters = (visitId: string, kind: 'visit_booked' | 'visit_moved') => database.db.outboxMessage.count({ where: { visitId, kind } });

beforeEach(async () => {
  made = await kitchen('Pearl Row');
  await database.db.user.update({ where: { id: made.person.id }, data: { name: 'Tova' } });
  desk = { userId: await somebody({ role: 'dispatcher', name: 'Idris' }) };
});

describe('a booking', () => {
  const asked = (over: Partial<BookVisit> = {}): BookVisit => ({
    ...{ kitchenId: made.kitchen.id, technicianId: made.person.id, date: monday, from: '09:00', minutes: 60, taskIds: [made.tasks[1]!.id] },
    ...{ note: 'Ring twice', fixed: true, anyway: false, ...over },
  });

  it('is refused for somebody who does no visits, a task of another kitchen, and one that stands on a visit, each in words', async () => {
    const refusal = (over: Partial<BookVisit>) => expect(bookVisit(ctx(), asked(over))).rejects;
    const gone = await somebody({ active: false });
    for (const technicianId of [gone, desk.userId, NOBODY])
      await refusal({ technicianId, anyway: true }).toMatchObject({
        ...{ code: 'invalid', field: 'technicianId', message: 'That technician is not active. Choose another.' },
      });
    const other = await kitchen('Dock Street');
    await refusal({ taskIds: [made.tasks[1]!.id, other.tasks[1]!.id] }).toMatchObject({
      ...{ code: 'conflict', field: 'taskIds', message: 'A chosen task is no longer on file at this kitchen. Choose again.' },
    });
    await standing({}, new Date(nine.getTime() + 5 * HOUR));
    await refusal({}).toMatchObject({
      ...{ code: 'conflict', field: 'taskIds' },
      message: 'Drain inspection of Reach-in already stands on another visit. Take it out or move that visit.',
    });
    expect(await database.db.visit.count({ where: { kitchenId: made.kitchen.id } })).toBe(1);
  });

  it('says where the technician is, from when to when, by that kitchen’s clock, and what to do', async () => {
    const other = await kitchen('Dock Street');
    await database.db.visit.create({ data: visitRow(other.kitchen.id, made.person.id, new Date(nine.getTime() + HOUR / 2), 45) });
    await expect(bookVisit(ctx(), asked())).rejects.toMatchObject({
      ...{
        code: 'overlap',
        field: 'from',
        message: `Tova is at ${other.customer.name}, Dock Street from 09:30 to 10:15. Choose another time or technician.`,
      },
    });
  });

  it('of one task by two people at once goes to one of them; the other is told to look again', async () => {
    const second = await somebody({ name: 'June' });
    const both = await Promise.allSettled([bookVisit(ctx(), asked()), bookVisit(ctx(), asked({ technicianId: second }))]);
    expect(both.map((r) => r.status).sort()).toEqual(['fulfilled', 'rejected']);
    expect(both.find((r) => r.status === 'rejected')?.reason).toMatchObject({ code: 'conflict', field: 'taskIds' });
  });

  it('is kept as it was asked for, with who booked it and when, and the kitchen is told', async () => {
    const { visitId } = await bookVisit(ctx(), asked());
    const visit = await onFile(visitId);
    const span = { startsAt: nine, endsAt: new Date(nine.getTime() + HOUR) };
    expect(visit).toMatchObject({ ...span, note: 'Ring twice', fixed: true, emergency: false, customerReply: null, createdAt: now });
    expect([visit.createdById, visit.status, visit.kitchenId, visit.technicianId]).toEqual([
      desk.userId,
      'booked',
      made.kitchen.id,
      made.person.id,
    ]);
    expect(visit.tasks.map((t) => [t.taskId, t.unitId, t.open, t.outcome])).toEqual([[made.tasks[1]!.id, made.unit.id, true, 'planned']]);
    const at = { startsAt: span.startsAt.toISOString(), endsAt: span.endsAt.toISOString(), technicianId: made.person.id };
    expect(visit.events).toMatchObject([{ kind: 'booked', at: now, byUserId: desk.userId, detail: at }]);
    expect(await letters(visitId, 'visit_booked')).toBe(1);
  });
});

describe('a change', () => {
  const change = (visitId: string, over: Partial<ChangeVisit> = {}): ChangeVisit => ({
    ...{ visitId, version: 1, taskIds: [made.tasks[1]!.id], minutes: 60, note: '', fixed: false, ...over },
  });

  it('stands in the visit’s history in words: what came, what went, how long, and whether it is fixed', async () => {
    const id = await standing();
    await changeVisit(ctx(), change(id));
    expect(await onFile(id)).toMatchObject({ version: 1, events: [] });
    const [coil, drain, evaporator] = made.tasks.map((t) => t.id);
    const steps: [Partial<ChangeVisit>, string][] = [
      [{ taskIds: [drain!, evaporator!], note: 'By the yard' }, '1 task added, another note'],
      [{ taskIds: [coil!, drain!, evaporator!], note: 'By the yard', minutes: 90 }, '1 task added, 90 min long'],
      [{ taskIds: [evaporator!], note: 'By the yard', minutes: 90, fixed: true }, '2 tasks taken out, fixed'],
      [{ taskIds: [evaporator!], note: 'By the yard', minutes: 45 }, '45 min long, no longer fixed'],
    ];
    for (const [i, [over, words]] of steps.entries()) {
      await changeVisit({ ...ctx(), now: new Date(now.getTime() + i * 60_000) }, change(id, { version: i + 1, ...over }));
      const visit = await onFile(id);
      expect(visit.events.at(-1)).toMatchObject({ kind: 'changed', reason: words, byUserId: desk.userId });
      expect(visit.tasks.map((t) => t.taskId).sort()).toEqual([...(over.taskIds ?? [])].sort());
    }
    const visit = await onFile(id);
    expect(visit).toMatchObject({ version: 5, sequence: 2, fixed: false, note: 'By the yard', startsAt: nine });
    expect(visit.endsAt.getTime() - visit.startsAt.getTime()).toBe(45 * 60_000);
    expect(await letters(id, 'visit_moved')).toBe(2);
  });

  it('of a visit that is over is not told to the kitchen', async () => {
    const id = await standing({}, new Date(now.getTime() - 3 * HOUR));
    await changeVisit(ctx(), change(id, { minutes: 90 }));
    expect((await onFile(id)).version).toBe(2);
    expect(await letters(id, 'visit_moved')).toBe(0);
  });

  it('is refused in words where there is no such visit, it has begun, or what is chosen cannot go on it', async () => {
    await expect(changeVisit(ctx(), change(NOBODY))).rejects.toMatchObject({ code: 'not_found', message: 'That visit is not on file.' });
    const begun = await standing({ status: 'started', arrivedAt: now });
    await expect(changeVisit(ctx(), change(begun, { note: 'x' }))).rejects.toMatchObject({
      ...{ code: 'conflict', message: 'A visit that is started is changed from the tablet.' },
    });
    const later = new Date(nine.getTime() + 6 * HOUR);
    const { id } = await database.db.visit.create({ data: visitRow(made.kitchen.id, made.person.id, later, 60) });
    await database.db.visitTask.create({ data: visitTaskRow(id, made.tasks[2]!) });
    const tasks = (...taskIds: string[]) => expect(changeVisit(ctx(), change(id, { taskIds }))).rejects;
    const mine = made.tasks[2]!.id;
    await tasks(mine, made.tasks[1]!.id).toMatchObject({ code: 'conflict', field: 'taskIds', message: expect.stringMatching(/^Drain/) });
    await tasks(mine, NOBODY).toMatchObject({ code: 'conflict', field: 'taskIds', message: expect.stringMatching(/no longer on file/) });
    await tasks().toMatchObject({ code: 'invalid', field: 'taskIds', message: 'Leave at least one task, or cancel the visit.' });
    expect(await onFile(id)).toMatchObject({ version: 1, events: [] });
  });

  it('that makes it run into the next visit is refused: the length is what to change', async () => {
    const id = await standing();
    await database.db.visit.create({ data: visitRow(made.kitchen.id, made.person.id, new Date(nine.getTime() + HOUR), 30) });
    await expect(changeVisit(ctx(), change(id, { minutes: 75 }))).rejects.toMatchObject({
      ...{ code: 'overlap', field: 'minutes' },
      message: `Tova is at ${made.customer.name}, Pearl Row from 10:00 to 10:30. Shorten it, or move one of them.`,
    });
    // Its own time is in nobody's way.
    await changeVisit(ctx(), change(id, { minutes: 50 }));
  });

  it('gives nobody a unit that they may not touch', async () => {
    const id = await standing();
    await database.db.unit.update({ where: { id: made.unit.id }, data: { refrigerant: 'R290' } });
    await database.db.user.update({ where: { id: made.person.id }, data: { skills: [] } });
    await expect(changeVisit(ctx(), change(id, { note: 'x' }))).rejects.toMatchObject({
      ...{ code: 'invalid', field: 'technicianId', message: 'Tova is not on file for flammable refrigerants.' },
    });
  });
});

describe('a move', () => {
  const move = (visitId: string, over: Partial<MoveVisit> = {}): MoveVisit => ({
    ...{ visitId, version: 1, technicianId: made.person.id, date: monday, from: '13:00', minutes: 45, reason: 'Delivery', anyway: false },
    ...over,
  });

  it('keeps from where to where, asks the kitchen anew, and writes to it once', async () => {
    const id = await standing({ customerReply: 'confirmed' });
    await moveVisit(ctx(), move(id));
    const [one, two] = [new Date(nine.getTime() + 4 * HOUR), new Date(nine.getTime() + 4.75 * HOUR)];
    const visit = await onFile(id);
    expect(visit).toMatchObject({ startsAt: one, endsAt: two, version: 2, sequence: 1, customerReply: null });
    const technicianId = made.person.id;
    expect(visit.events).toMatchObject([
      {
        ...{ kind: 'moved', reason: 'Delivery', at: now, byUserId: desk.userId },
        detail: {
          from: { startsAt: nine.toISOString(), endsAt: new Date(nine.getTime() + HOUR).toISOString(), technicianId },
          to: { startsAt: one.toISOString(), endsAt: two.toISOString(), technicianId },
        },
      },
    ]);
    expect(await letters(id, 'visit_moved')).toBe(1);
  });

  it('is refused in words for a visit that is not there, has begun, or is over', async () => {
    const refusal = (id: string) => expect(moveVisit(ctx(), move(id))).rejects;
    await refusal(NOBODY).toMatchObject({ code: 'not_found', message: 'That visit is not on file.' });
    await refusal(await standing({ status: 'started', arrivedAt: now })).toMatchObject({
      ...{ code: 'conflict', message: 'This visit has been started. Cancel it or give it to someone else; its time stays.' },
    });
    await refusal(await standing({ status: 'cancelled', cancelReason: 'Closed' })).toMatchObject({
      ...{ code: 'conflict', message: 'A visit that is cancelled cannot be moved.' },
    });
  });

  it('to where the technician is already is refused; half an hour over its own old time is not', async () => {
    const id = await standing();
    await database.db.visit.create({ data: visitRow(made.kitchen.id, made.person.id, new Date(nine.getTime() + 4 * HOUR), 30) });
    await expect(moveVisit(ctx(), move(id))).rejects.toMatchObject({
      ...{
        code: 'overlap',
        field: 'from',
        message: `Tova is at ${made.customer.name}, Pearl Row from 13:00 to 13:30. Choose another time or technician.`,
      },
    });
    await moveVisit(ctx(), move(id, { from: '09:30', minutes: 60 }));
  });
});

describe('a visit given to somebody else', () => {
  const give = (visitId: string, technicianId: string) => giveVisit(ctx(), { visitId, version: 1, technicianId, reason: 'Van broke down' });

  it('is refused in words where it has not begun, is over, is theirs already, or is not there', async () => {
    const june = await somebody({ name: 'June' });
    await expect(give(NOBODY, june)).rejects.toMatchObject({ code: 'not_found', message: 'That visit is not on file.' });
    await expect(give(await standing(), june)).rejects.toMatchObject({
      ...{ code: 'conflict', message: 'Nobody has started this visit. Move it instead.' },
    });
    const cancelled = await standing({ status: 'cancelled', cancelReason: 'Closed' });
    await expect(give(cancelled, june)).rejects.toMatchObject({
      ...{ code: 'conflict', message: 'A visit that is cancelled cannot be given to someone else.' },
    });
    const begun = await database.db.visit.create({
      data: visitRow(made.kitchen.id, made.person.id, new Date(nine.getTime() + 2 * HOUR), 60, { status: 'started', arrivedAt: now }),
    });
    await expect(give(begun.id, made.person.id)).rejects.toMatchObject({
      ...{ code: 'invalid', field: 'technicianId', message: 'Tova has it already. Choose someone else.' },
    });
    await give(begun.id, june);
    expect(await onFile(begun.id)).toMatchObject({
      sequence: 1,
      events: [{ kind: 'reassigned', at: now, detail: { from: { technicianId: made.person.id }, to: { technicianId: june } } }],
    });
  });
});

describe('what else is refused', () => {
  it('cancelling what is not there, or over; and somebody who saw less than is on file hears what was done meanwhile', async () => {
    const cancel = (visitId: string, version = 1) => expect(cancelVisit(ctx(), { visitId, version, reason: 'Closed' })).rejects;
    await cancel(NOBODY).toMatchObject({ code: 'not_found', message: 'That visit is not on file.' });
    await cancel(await standing({ status: 'cancelled', cancelReason: 'Closed' })).toMatchObject({
      ...{ code: 'conflict', message: 'A visit that is cancelled cannot be cancelled.' },
    });
    const id = await standing();
    await cancel(id, 7).toMatchObject({
      ...{ code: 'conflict', message: 'Someone changed this visit meanwhile: changed. Look at it again before you change it.' },
    });
    await database.db.visitEvent.create({ data: { visitId: id, kind: 'not_revised', at: now, byUserId: desk.userId } });
    await cancel(id, 7).toMatchObject({
      message: 'Idris changed this visit meanwhile: not revised. Look at it again before you change it.',
    });
    expect((await onFile(id)).status).toBe('booked');
  });

  it('closing what is not there or is over, and going through the rules of what is not closed', async () => {
    const by = { db: database.db, now, actor: { userId: desk.userId, role: 'dispatcher' as const } };
    const close = (visitId: string) => expect(closeVisit(by, { visitId, leftAt: now, knownTaskIds: [] })).rejects;
    await close(NOBODY).toMatchObject({ code: 'not_found', message: 'That visit is not on file.' });
    await close(await standing({ status: 'cancelled', cancelReason: 'Closed' })).toMatchObject({
      ...{ code: 'conflict', message: 'The visit is cancelled already.' },
    });
    const revise = (visitId: string) => expect(reviseVisit(by, visitId)).rejects;
    await revise(NOBODY).toMatchObject({ code: 'not_found', message: 'That visit is not on file.' });
    await revise(await standing()).toMatchObject({
      ...{ code: 'conflict', message: 'The visit is not closed; its rules follow when it is.' },
    });
    const done = await standing({ status: 'done', closedAt: now }, new Date(nine.getTime() - 24 * HOUR));
    await reviseVisit(by, done);
    expect((await onFile(done)).events).toMatchObject([{ kind: 'revised', at: now, byUserId: desk.userId }]);
  });
});

describe('an emergency', () => {
  const taking = (over: Partial<SqueezeTake> = {}): SqueezeTake => ({
    ...{ kitchenId: made.kitchen.id, unitIds: [made.unit.id], taskIds: [], what: 'Walk-in at 52 °F', minutes: 60 },
    ...{ technicianId: made.person.id, startMs: nine.getTime(), moves: [], ...over },
  });
  const refusal = (over: Partial<SqueezeTake>) => expect(squeezeEmergency(ctx(), taking(over))).rejects;
  const to = (visitId: string, startMs: number, over = {}) => ({
    ...{ visitId, version: 1, technicianId: made.person.id, startMs, endMs: startMs + HOUR, ...over },
  });

  it('is taken a quarter of an hour late at most, and so is every visit that it moves', async () => {
    const id = await standing();
    const past = { code: 'conflict', message: 'That time is past by now. Look for a time again.' };
    await refusal({ startMs: now.getTime() - 16 * 60_000 }).toMatchObject(past);
    await refusal({ moves: [to(id, now.getTime() - 16 * 60_000)] }).toMatchObject(past);
    const { visitId } = await squeezeEmergency(ctx(), taking({ startMs: now.getTime() - 14 * 60_000, minutes: 30 }));
    expect((await onFile(visitId)).startsAt).toEqual(new Date(now.getTime() - 14 * 60_000));
  });

  it('is refused in words over what is not there, stands elsewhere, or would go round in a ring, and nothing is written', async () => {
    await refusal({ kitchenId: NOBODY, unitIds: [] }).toMatchObject({ code: 'not_found', field: 'kitchenId', message: 'That kitchen is not on file.' }); // prettier-ignore
    await refusal({ taskIds: [NOBODY] }).toMatchObject({
      code: 'conflict',
      field: 'taskIds',
      message: expect.stringMatching(/no longer on/),
    });
    await refusal({ moves: [to(NOBODY, nine.getTime())] }).toMatchObject({
      ...{ code: 'not_found', message: 'A visit to be moved is not on file.' },
    });
    const first = await standing();
    await refusal({ taskIds: [made.tasks[1]!.id] }).toMatchObject({ code: 'conflict', field: 'taskIds' });
    const { id: second } = await database.db.visit.create({
      data: visitRow(made.kitchen.id, made.person.id, new Date(nine.getTime() + 2 * HOUR), 60),
    });
    const ring = [to(first, nine.getTime() + 2 * HOUR), to(second, nine.getTime())];
    await refusal({ startMs: nine.getTime() + 6 * HOUR, moves: ring }).toMatchObject({
      ...{ code: 'conflict', message: 'These visits would have to change places with one another. Choose another time.' },
    });
    expect(await database.db.visit.count({ where: { kitchenId: made.kitchen.id, version: 1 } })).toBe(2);
  });

  it('at a kitchen that went out of use meanwhile is neither looked for nor booked', async () => {
    await database.db.kitchen.update({ where: { id: made.kitchen.id }, data: { archivedAt: now } });
    const out = { code: 'conflict', field: 'kitchenId', message: 'That kitchen is out of use. Put it back in use first.' };
    await refusal({ unitIds: [] }).toMatchObject(out);
    const { kitchenId, what, minutes } = taking();
    const ask = { kitchenId, what, minutes, unitIds: [], taskIds: [], date: monday, from: '09:00', anyHour: true };
    await expect(offerSqueeze(ctx(), ask)).rejects.toMatchObject(out);
    expect(await database.db.visit.count({ where: { kitchenId } })).toBe(0);
  });

  it('that moves a chain of visits makes the moves in an order in which nobody is in two places', async () => {
    const first = await standing();
    const { id: second } = await database.db.visit.create({
      data: visitRow(made.kitchen.id, made.person.id, new Date(nine.getTime() + HOUR), 60),
    });
    const moves = [to(first, nine.getTime() + HOUR), to(second, nine.getTime() + 2 * HOUR)];
    await squeezeEmergency(ctx(), taking({ moves }));
    expect((await onFile(first)).startsAt.getTime()).toBe(nine.getTime() + HOUR);
    expect((await onFile(second)).startsAt.getTime()).toBe(nine.getTime() + 2 * HOUR);
  });

  it('without a unit named says only what is wrong; a job that may wait is no emergency', async () => {
    const plain = await squeezeEmergency(ctx(), taking({ unitIds: [] }));
    expect(await onFile(plain.visitId)).toMatchObject({
      ...{ note: 'Emergency: Walk-in at 52 °F', emergency: true, events: [{ reason: 'Emergency: Walk-in at 52 °F' }] },
    });
    const urgencies = ['now', 'today', 'week', 'next_visit'] as const;
    for (const [i, urgency] of urgencies.entries()) {
      const job = await database.db.job.create({ data: jobRow(made.unit, { urgency }) });
      const startMs = nine.getTime() + (i + 1) * HOUR;
      const { visitId } = await squeezeEmergency(ctx(), taking({ jobId: job.id, startMs }));
      expect((await onFile(visitId)).emergency, urgency).toBe(i < 2);
      expect(await database.db.job.findUniqueOrThrow({ where: { id: job.id } })).toMatchObject({ state: 'booked', visitId });
    }
    const other = await kitchen('Dock Street');
    const foreign = await database.db.job.create({ data: jobRow(other.unit) });
    await refusal({ jobId: foreign.id, startMs: nine.getTime() + 8 * HOUR }).toMatchObject({ code: 'conflict', field: 'kitchenId' });
  });
});

it('who did what is told by name, and what nobody did is the system’s', async () => {
  const id = await standing({ customerReply: 'other_time', replyStartsAt: new Date(nine.getTime() + HOUR), replyNote: 'After ten' });
  await database.db.visitEvent.createMany({
    data: [
      { visitId: id, kind: 'booked', at: new Date(now.getTime() - HOUR), byUserId: desk.userId },
      { visitId: id, kind: 'not_revised', at: now },
    ],
  });
  const page = await visitToManage(database.db, id);
  expect(page?.events.map((e) => [e.kind, e.by, e.movedFrom])).toEqual([
    ['not_revised', 'The system', null],
    ['booked', 'Idris', null],
  ]);
  expect(page).toMatchObject({ asksFor: nine.getTime() + HOUR, replyNote: 'After ten', customerReply: 'other_time' });
});
