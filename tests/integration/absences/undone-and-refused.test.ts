import { beforeEach, describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { absences, awayOffers } from '@/lib/features/absences/reads/away';
import { sendAway } from '@/lib/features/absences/verbs/send-away';
import { undoAway } from '@/lib/features/absences/verbs/undo-away';
import { useDatabase } from '../../support/database';
import { ANY_TIME, haveOneUnit, personRow, visitRow, visitTaskRow, weeklyHours } from '../../support/factories';

const database = useDatabase();
const HOUR = 3_600_000;
// A Monday, 08:00 in Denver.
const now = new Date('2026-11-30T15:00:00Z');
const monday = localDate('2026-11-30');
const tuesday = localDate('2026-12-01');
const at = (hour: number, day = 0) => new Date(now.getTime() + (hour - 8) * HOUR + day * 24 * HOUR);
const NOBODY = '00000000-0000-4000-8000-000000000000';

let desk: { id: string };
let sick: { id: string };
let other: { id: string };
let made: Awaited<ReturnType<typeof haveOneUnit>>;
const ctx = (when = now) => ({ db: database.db, actor: { userId: desk.id }, now: when, baseUrl: 'http://localhost:3000' });
const visit = (startsAt: Date, over: Parameters<typeof visitRow>[4] = {}, who = sick.id) =>
  database.db.visit.create({ data: visitRow(made.kitchen.id, who, startsAt, 60, over) });
const onFile = (id: string) => database.db.visit.findUniqueOrThrow({ where: { id }, include: { events: { orderBy: { at: 'asc' } } } });
const to = (v: { id: string }, startsAt: Date, who = other.id) => ({
  ...{ visitId: v.id, version: 1, technicianId: who, startMs: startsAt.getTime(), endMs: startsAt.getTime() + HOUR },
});
const ask = (moves: ReturnType<typeof to>[] = []) => ({ userId: sick.id, from: monday, to: monday, reason: 'Flu', moves });

beforeEach(async () => {
  const { db } = database;
  await db.absence.deleteMany();
  await db.visit.deleteMany();
  await db.user.updateMany({ data: { active: false } });
  made = await haveOneUnit(db, {
    kitchen: { name: 'Pearl Row', serviceHours: [], contactName: '', contactPhone: '', contactEmail: '' },
    person: { active: false },
  });
  desk = await db.user.create({ data: personRow({ role: 'dispatcher', name: 'Idris' }) });
  sick = await db.user.create({ data: personRow({ name: 'Tova', shifts: ANY_TIME }) });
  other = await db.user.create({ data: personRow({ name: 'June', shifts: ANY_TIME }) });
});

describe('what stands on days away', () => {
  it('finds a time up to ten days on, around what stands there by then', async () => {
    const { db } = database;
    await db.kitchen.update({ where: { id: made.kitchen.id }, data: { serviceHours: weeklyHours('09:00', '11:00', [3]) } });
    const off = (userId: string, from: string, until: string) =>
      db.timeOff.create({ data: { userId, startsOn: new Date(from), endsOn: new Date(until), reason: '' } });
    await off(sick.id, '2026-12-01', '2026-12-24');
    await off(other.id, '2026-11-30', '2026-12-10');
    await visit(at(9));
    const offered = async () => (await awayOffers(db, { userId: sick.id, from: monday, to: monday }, now))[0];
    // The first Thursday on which somebody is there is the tenth day.
    expect((await offered())?.to).toMatchObject({ technicianId: other.id, startMs: at(9, 10).getTime(), changes: 'day' });
    const held = await visit(at(9, 10), {}, other.id);
    expect((await offered())?.to).toMatchObject({ startMs: at(10, 10).getTime() });
    await db.visit.update({ where: { id: held.id }, data: { endsAt: at(11, 10) } });
    expect(await offered()).toMatchObject({ to: null, why: 'full' });
  });

  it('is what is booked on them from now on and what was begun, with whom to ring; neither what is past, cancelled, later nor another’s', async () => {
    await database.db.customer.update({
      where: { id: made.customer.id },
      data: { name: 'Fry House', contactName: 'Ilse', phone: '555-0100', email: 'ilse@example.com' },
    });
    const second = await visit(at(23, 1));
    const first = await visit(at(9), { customerReply: 'confirmed', emergency: true });
    const begun = await visit(at(6.5), { status: 'started', arrivedAt: at(6.5) });
    for (const t of made.tasks.slice(0, 2)) await database.db.visitTask.create({ data: visitTaskRow(first.id, t) });
    await visit(at(5));
    await visit(at(11), { status: 'cancelled', cancelReason: 'Closed' });
    await visit(at(0.5, 2));
    await visit(at(13), {}, other.id);
    const rows = await awayOffers(database.db, { userId: sick.id, from: monday, to: tuesday }, now);
    expect(rows.map((r) => r.id)).toEqual([begun.id, first.id, second.id]);
    // What has been begun is hers to end, or to be given to somebody.
    expect(rows[0]).toMatchObject({ why: 'started', to: null });
    expect(rows[1]).toMatchObject({
      ...{ version: 1, startMs: at(9).getTime(), endMs: at(10).getTime(), timeZone: 'America/Denver', kitchen: 'Pearl Row' },
      ...{
        customer: 'Fry House',
        confirmed: true,
        emergency: true,
        tasks: 2,
        contact: 'Ilse',
        phone: '555-0100',
        email: 'ilse@example.com',
      },
      to: { technicianId: other.id, technician: 'June', startMs: at(9).getTime(), endMs: at(10).getTime(), changes: 'who' },
      why: null,
    });
    await database.db.kitchen.update({
      where: { id: made.kitchen.id },
      data: { contactName: 'Chef', contactPhone: '1', contactEmail: 'chef@example.com' },
    });
    const [, again] = await awayOffers(database.db, { userId: sick.id, from: monday, to: monday }, now);
    expect(again).toMatchObject({ contact: 'Chef', phone: '1', email: 'chef@example.com' });
  });

  it('goes to nobody where another visit, or the way to it, is in the way; then near its time', async () => {
    const { db } = database;
    const far = await haveOneUnit(db, { kitchen: { lat: 40.3, lng: -104.98 }, person: { active: false } });
    await visit(at(9));
    // She ends at half past eight, far away: nine o’clock cannot be reached.
    await db.visit.create({ data: visitRow(far.kitchen.id, other.id, at(8.1), 24) });
    const [row] = await awayOffers(db, { userId: sick.id, from: monday, to: monday }, now);
    expect(row?.to?.technicianId).toBe(other.id);
    expect(row?.to?.changes).toBe('time');
    expect(row?.to?.startMs).toBeGreaterThan(at(9).getTime());
    await db.user.update({ where: { id: other.id }, data: { active: false } });
    // Nobody else is there: it waits for her, on the first day she is back.
    expect((await awayOffers(db, { userId: sick.id, from: monday, to: monday }, now))[0]?.to).toMatchObject({
      ...{ technicianId: sick.id, technician: 'Tova', changes: 'day' },
    });
  });
});

describe('sent away', () => {
  it('is refused in words over a person or visit not on file, a time past, or a ring, and nothing is written', async () => {
    const refusal = (input: Parameters<typeof sendAway>[1]) => expect(sendAway(ctx(), input)).rejects;
    await refusal({ ...ask(), userId: NOBODY }).toMatchObject({ code: 'not_found', message: 'That person is not on file.' });
    await refusal(ask([to({ id: NOBODY }, at(9))])).toMatchObject({
      ...{ code: 'not_found', message: 'A visit to be handed on is not on file.' },
    });
    const [one, two] = [await visit(at(9)), await visit(at(11))];
    await refusal(ask([to(one, at(7.9))])).toMatchObject({
      ...{ code: 'conflict', message: 'One of these times is past by now. Look again who can go.' },
    });
    await refusal(ask([to(one, at(11), sick.id), to(two, at(9), sick.id)])).toMatchObject({
      ...{ code: 'conflict', message: 'These visits would have to change places with one another. Choose fewer of them.' },
    });
    await visit(at(9.5), {}, other.id);
    await refusal(ask([to(one, at(9))])).toMatchObject({
      ...{ code: 'overlap', message: 'Someone took one of these times a moment ago; nothing was changed. Look again who can go.' },
    });
    expect([await database.db.absence.count(), await database.db.timeOff.count({ where: { userId: sick.id } })]).toEqual([0, 0]);
    expect(await onFile(one.id)).toMatchObject({ technicianId: sick.id, version: 1, events: [] });
  });

  it('says in the visit’s history who is away, and on file why, from where each visit came and by whom', async () => {
    const moved = await visit(at(9));
    await sendAway(ctx(), ask([to(moved, at(9))]));
    expect((await onFile(moved.id)).events).toMatchObject([{ kind: 'moved', reason: 'Tova is away', byUserId: desk.id }]);
    expect(await database.db.absence.findFirstOrThrow({ include: { moves: true, timeOff: true } })).toMatchObject({
      ...{ userId: sick.id, startsOn: new Date('2026-11-30'), endsOn: new Date('2026-12-01'), createdById: desk.id, createdAt: now },
      ...{ undoneAt: null, timeOff: { reason: 'Flu', userId: sick.id } },
      moves: [{ visitId: moved.id, fromTechnicianId: sick.id, fromStartsAt: at(9), fromEndsAt: at(10), versionAfter: 2 }],
    });
    expect(await absences(database.db, new Date('2026-11-30'))).toMatchObject([{ name: 'Tova', from: monday, to: monday, moves: 1 }]);
    expect(await absences(database.db, new Date('2026-12-01'))).toEqual([]);
  });

  it('those away are listed by their first day, until their last is over or was taken back', async () => {
    const later = await sendAway(ctx(), { ...ask(), from: tuesday, to: localDate('2026-12-04') });
    await sendAway(ctx(), { ...ask(), userId: other.id });
    const names = async () => (await absences(database.db, new Date('2026-11-30'))).map((a) => [a.name, a.from, a.to, a.moves]);
    expect(await names()).toEqual([
      ['June', monday, monday, 0],
      ['Tova', tuesday, '2026-12-04', 0],
    ]);
    await undoAway(ctx(), later.absenceId);
    expect((await names()).map(([n]) => n)).toEqual(['June']);
  });
});

describe('here after all', () => {
  it('what was begun, was changed or is past by now stays, each told with its kitchen and why; what can goes back, and is noted', async () => {
    const [done, changed, past, back] = [await visit(at(13)), await visit(at(14)), await visit(at(9)), await visit(at(16))];
    const moves = [to(done, at(13)), to(changed, at(14)), to(past, at(9)), to(back, at(16))];
    const { absenceId } = await sendAway(ctx(), ask(moves));
    await database.db.visit.update({ where: { id: done.id }, data: { status: 'cancelled', cancelReason: 'Closed' } });
    await database.db.visit.update({ where: { id: changed.id }, data: { version: { increment: 1 } } });
    // Nine o’clock to the minute has come.
    expect(await undoAway(ctx(at(9)), absenceId)).toEqual({
      back: 1,
      stayed: [
        { visitId: past.id, kitchen: `${made.customer.name}, Pearl Row`, reason: 'its old time is past' },
        { visitId: done.id, kitchen: `${made.customer.name}, Pearl Row`, reason: 'it is no longer open' },
        { visitId: changed.id, kitchen: `${made.customer.name}, Pearl Row`, reason: 'somebody changed it since' },
      ],
    });
    const returned = await onFile(back.id);
    expect(returned).toMatchObject({ technicianId: sick.id, startsAt: at(16), endsAt: at(17), version: 3 });
    expect(returned.events.at(-1)).toMatchObject({ kind: 'moved', reason: 'Tova is here after all', at: at(9), byUserId: desk.id });
    expect((await onFile(past.id)).technicianId).toBe(other.id);
    expect(await database.db.absence.findUniqueOrThrow({ where: { id: absenceId } })).toMatchObject({ undoneAt: at(9), timeOffId: null });
    expect(await database.db.auditEntry.findFirstOrThrow({ where: { action: 'person.away_undone', entityId: sick.id } })).toMatchObject({
      ...{ at: at(9), userId: desk.id, entity: 'User', detail: { back: 1, stayed: 3 } },
    });
    await expect(undoAway(ctx(at(9)), absenceId)).rejects.toMatchObject({ message: 'That was taken back already.' });
  });

  it('takes back its own days off and no others', async () => {
    await database.db.timeOff.create({ data: { userId: sick.id, startsOn: new Date('2026-12-24'), endsOn: new Date('2026-12-27') } });
    const { absenceId } = await sendAway(ctx(), ask());
    await undoAway(ctx(), absenceId);
    expect(await database.db.timeOff.findMany({ where: { userId: sick.id } })).toMatchObject([{ startsOn: new Date('2026-12-24') }]);
  });
});
