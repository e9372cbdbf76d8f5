import { beforeEach, describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { awayOffers } from '@/lib/features/absences/reads/away';
import { sendAway } from '@/lib/features/absences/verbs/send-away';
import { undoAway } from '@/lib/features/absences/verbs/undo-away';
import { bookVisit } from '@/lib/features/visits/verbs/book-visit';
import { useDatabase } from '../../support/database';
import { haveOneUnit, personRow } from '../../support/factories';

const database = useDatabase();
// A Monday, 06:00 in Denver.
const now = new Date('2026-11-30T13:00:00Z');
const monday = localDate('2026-11-30');
const SHIFT = [0, 1, 2, 3, 4].map((weekday) => ({ weekday, from: '07:00', to: '15:30' }));

let desk: { id: string };
let sick: { id: string };
let other: { id: string };
const ctx = () => ({ db: database.db, actor: { userId: desk.id }, now, baseUrl: 'http://localhost:3000' });

async function booked(from: string, o: { unit?: object; kitchen?: object; who?: string; fixed?: boolean } = {}) {
  const made = await haveOneUnit(database.db, {
    kitchen: { lat: 39.74, lng: -104.98, contactEmail: 'kitchen@example.com', contactPhone: '555-0142', ...o.kitchen },
    unit: o.unit,
    person: { active: false },
  });
  const { visitId } = await bookVisit(ctx(), {
    kitchenId: made.kitchen.id,
    technicianId: o.who ?? sick.id,
    date: monday,
    from,
    minutes: 60,
    taskIds: [made.tasks[1]!.id],
    note: '',
    fixed: o.fixed ?? false,
    anyway: true,
  });
  return visitId;
}

beforeEach(async () => {
  const { db } = database;
  await db.user.updateMany({ data: { active: false } });
  await db.visit.updateMany({ data: { status: 'cancelled', cancelReason: 'Another test' } });
  await db.shopSettings.upsert({
    where: { id: 1 },
    create: { id: 1, name: 'Test shop', timeZone: 'America/Denver', lat: 39.74, lng: -104.98 },
    update: {},
  });
  desk = await db.user.create({ data: { ...personRow(), role: 'dispatcher' } });
  sick = await db.user.create({ data: { ...personRow(), role: 'technician', skills: ['flammable'], shifts: SHIFT } });
  other = await db.user.create({ data: { ...personRow(), role: 'technician', skills: [], shifts: SHIFT } });
});

const offers = (to = monday) => awayOffers(database.db, { userId: sick.id, from: monday, to }, now);
const movesOf = (rows: Awaited<ReturnType<typeof offers>>) =>
  rows.flatMap((v) =>
    v.to ? [{ visitId: v.id, version: v.version, technicianId: v.to.technicianId, startMs: v.to.startMs, endMs: v.to.endMs }] : [],
  );
const stand = (id: string) => database.db.visit.findUniqueOrThrow({ where: { id } });

describe('somebody is away', () => {
  it('offers each visit at its own time where another is free, else near it, and lists what nobody can take', async () => {
    const same = await booked('09:00');
    const clash = await booked('12:00');
    await booked('12:00', { who: other.id });
    const flammable = await booked('14:00', { unit: { refrigerant: 'R290' } });
    const rows = await offers();
    const of = (id: string) => rows.find((v) => v.id === id);
    expect(of(same)?.to).toMatchObject({ technicianId: other.id, changes: 'who' });
    expect(of(clash)?.to).toMatchObject({ technicianId: other.id, changes: 'time' });
    // She alone may touch it: it waits for her, on the first day she is back.
    expect(of(flammable)?.to).toMatchObject({ technicianId: sick.id, changes: 'day' });
    expect(of(flammable)?.phone).toBe('555-0142');
  });

  it('hands on at once, tells the kitchens without saying why, and goes back where it stood', async () => {
    const { db } = database;
    const visitId = await booked('09:00');
    const before = await stand(visitId);
    await db.outboxMessage.deleteMany();
    const { absenceId, moved } = await sendAway(ctx(), {
      userId: sick.id,
      from: monday,
      to: monday,
      reason: 'Flu',
      moves: movesOf(await offers()),
    });
    expect(moved).toBe(1);
    expect(await stand(visitId)).toMatchObject({ technicianId: other.id, startsAt: before.startsAt, version: before.version + 1 });
    const [letter] = await db.outboxMessage.findMany({ where: { visitId } });
    expect(letter?.text).not.toContain('Flu');
    expect(await db.timeOff.count({ where: { userId: sick.id } })).toBe(1);

    expect(await undoAway(ctx(), absenceId)).toEqual({ back: 1, stayed: [] });
    expect(await stand(visitId)).toMatchObject({ technicianId: sick.id, startsAt: before.startsAt, endsAt: before.endsAt });
    expect(await db.timeOff.count({ where: { userId: sick.id } })).toBe(0);
    await expect(undoAway(ctx(), absenceId)).rejects.toMatchObject({ code: 'conflict' });
  });

  it('leaves what somebody changed since, and what another holds by now, and names it', async () => {
    const { db } = database;
    const changed = await booked('08:00');
    const given = await booked('11:00');
    const { absenceId } = await sendAway(ctx(), { userId: sick.id, from: monday, to: monday, reason: '', moves: movesOf(await offers()) });
    await db.visit.update({ where: { id: changed }, data: { version: { increment: 1 } } });
    await booked('11:15', { who: sick.id });
    const back = await undoAway(ctx(), absenceId);
    expect(back.back).toBe(0);
    expect(back.stayed.map((s) => [s.visitId, s.reason]).sort()).toEqual(
      [
        [changed, 'somebody changed it since'],
        [given, 'its old time has been given away'],
      ].sort(),
    );
  });

  it('refuses a visit that changed while the list was looked at: nothing is written', async () => {
    const visitId = await booked('09:00');
    const moves = movesOf(await offers());
    await database.db.visit.update({ where: { id: visitId }, data: { version: { increment: 1 } } });
    await expect(sendAway(ctx(), { userId: sick.id, from: monday, to: monday, reason: '', moves })).rejects.toMatchObject({
      code: 'conflict',
    });
    expect(await database.db.absence.count({ where: { userId: sick.id } })).toBe(0);
  });

  it('moves nobody else’s visits, none into the past, and is off for all days named', async () => {
    const { db } = database;
    const theirs = await booked('09:00', { who: other.id });
    await booked('13:00');
    const [own] = movesOf(await offers());
    if (!own) throw new Error('nothing to hand on');
    const foreign = { ...own, visitId: theirs, version: (await stand(theirs)).version, technicianId: other.id };
    const ask = { userId: sick.id, from: monday, to: localDate('2026-12-02'), reason: '' };
    for (const wrong of [foreign, { ...own, startMs: now.getTime() - 60_000 }])
      await expect(sendAway(ctx(), { ...ask, moves: [wrong] })).rejects.toMatchObject({ code: 'conflict' });
    expect(await db.timeOff.count({ where: { userId: sick.id } })).toBe(0);
    await sendAway(ctx(), { ...ask, moves: [] });
    const [off] = await db.timeOff.findMany({ where: { userId: sick.id } });
    // Both days included on the form, half-open on file.
    expect([off?.startsOn, off?.endsOn]).toEqual([new Date('2026-11-30'), new Date('2026-12-03')]);
    const noted = await db.auditEntry.findFirst({ where: { action: 'person.away', entityId: sick.id } });
    expect(noted).toMatchObject({ userId: desk.id, detail: { from: '2026-11-30', to: '2026-12-02', moved: 0 } });
  });

  it('an absence that ends before it begins is refused by the database', async () => {
    const day = new Date('2026-11-30');
    await expect(
      database.db.absence.create({ data: { userId: sick.id, startsOn: day, endsOn: day, createdById: desk.id } }),
    ).rejects.toThrow(/absence_range/);
  });
});
