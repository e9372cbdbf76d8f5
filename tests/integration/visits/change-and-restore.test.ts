import { beforeEach, describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { remindOfTomorrow } from '@/lib/features/mail/verbs/remind';
import { bookVisit } from '@/lib/features/visits/verbs/book-visit';
import { cancelVisit } from '@/lib/features/visits/verbs/cancel-visit';
import { changeVisit } from '@/lib/features/visits/verbs/change-visit';
import { restoreVisit } from '@/lib/features/visits/verbs/restore-visit';
import { useDatabase } from '../../support/database';
import { haveOneUnit, personRow } from '../../support/factories';

const database = useDatabase();
// A Monday, 08:00 in Denver.
const now = new Date('2026-11-30T15:00:00Z');
const tuesday = localDate('2026-12-01');
let desk: { id: string };
let tech: { id: string };
const ctx = (at = now) => ({ db: database.db, actor: { userId: desk.id }, now: at, baseUrl: 'http://localhost:3000' });

async function booked(from = '09:00') {
  const made = await haveOneUnit(database.db, { kitchen: { contactEmail: 'kitchen@example.com' }, person: { active: false } });
  const drain = made.tasks[1]!;
  const { visitId } = await bookVisit(ctx(), {
    kitchenId: made.kitchen.id,
    technicianId: tech.id,
    date: tuesday,
    from,
    minutes: 60,
    taskIds: [drain.id],
    note: '',
    fixed: false,
    anyway: true,
  });
  return { ...made, visitId, drain };
}
const stand = (id: string) => database.db.visit.findUniqueOrThrow({ where: { id }, include: { tasks: true } });

beforeEach(async () => {
  await database.db.visit.deleteMany();
  await database.db.outboxMessage.deleteMany();
  await database.db.shopSettings.upsert({
    where: { id: 1 },
    create: { id: 1, name: 'Test shop', timeZone: 'America/Denver' },
    update: { remindDayBefore: false },
  });
  desk = await database.db.user.create({ data: { ...personRow(), role: 'dispatcher' } });
  tech = await database.db.user.create({ data: { ...personRow(), role: 'technician' } });
});

describe('a booked visit', () => {
  it('takes on a coil with its low side, a note and an appointment; the kitchen hears of it only when the time changes', async () => {
    const { visitId, tasks } = await booked();
    const before = await stand(visitId);
    const change = { visitId, version: 1, taskIds: [tasks[0]!.id], minutes: 60, note: 'Key at the bar', fixed: true };
    await changeVisit(ctx(), change);
    const after = await stand(visitId);
    expect(after.tasks.map((t) => t.taskId).sort()).toEqual(tasks.map((t) => t.id).sort());
    expect(after).toMatchObject({ note: 'Key at the bar', fixed: true, version: 2, sequence: before.sequence });
    expect(await database.db.outboxMessage.count({ where: { visitId, kind: 'visit_moved' } })).toBe(0);
    await changeVisit(ctx(), { ...change, version: 2, minutes: 90 });
    expect(await database.db.outboxMessage.count({ where: { visitId, kind: 'visit_moved' } })).toBe(1);
    await expect(changeVisit(ctx(), { ...change, version: 1 })).rejects.toMatchObject({ code: 'conflict' });
    await expect(changeVisit(ctx(), { ...change, version: 3, taskIds: [] })).rejects.toThrow(/at least one task/);
  });

  it('that was cancelled stands again as it was, without what was booked elsewhere meanwhile', async () => {
    const { visitId, tasks } = await booked();
    await changeVisit(ctx(), { visitId, version: 1, taskIds: [tasks[0]!.id], minutes: 60, note: '', fixed: false });
    await cancelVisit(ctx(), { visitId, version: 2, reason: 'A slip' });
    await booked('13:00');
    expect(await restoreVisit(ctx(), { visitId, version: 3 })).toBe(0);
    const after = await stand(visitId);
    expect(after).toMatchObject({ status: 'booked', cancelReason: '' });
    expect(after.tasks.every((t) => t.open)).toBe(true);

    await cancelVisit(ctx(), { visitId, version: 4, reason: 'Again' });
    const late = new Date('2026-12-01T17:00:00Z');
    await expect(restoreVisit(ctx(late), { visitId, version: 5 })).rejects.toMatchObject({ code: 'conflict' });
  });

  it('that was cancelled does not take back a task that stands on another visit by now', async () => {
    const { visitId, tasks, kitchen } = await booked();
    await changeVisit(ctx(), { visitId, version: 1, taskIds: tasks.map((t) => t.id), minutes: 60, note: '', fixed: false });
    await cancelVisit(ctx(), { visitId, version: 2, reason: 'A slip' });
    const drain = tasks.find((t) => t.kindKey === 'drain_inspection');
    if (!drain) throw new Error('no drain inspection');
    const at = { kitchenId: kitchen.id, technicianId: tech.id, date: localDate('2026-12-01'), minutes: 60, note: '', fixed: false };
    await bookVisit(ctx(), { ...at, from: '14:00', taskIds: [drain.id], anyway: true });
    expect(await restoreVisit(ctx(), { visitId, version: 3 })).toBe(1);
    expect((await stand(visitId)).tasks.map((t) => t.taskId)).not.toContain(drain.id);
    await cancelVisit(ctx(), { visitId, version: 4, reason: 'Again' });
    await bookVisit(ctx(), { ...at, from: '15:30', taskIds: tasks.filter((t) => t !== drain).map((t) => t.id), anyway: true });
    await expect(restoreVisit(ctx(), { visitId, version: 5 })).rejects.toMatchObject({ code: 'conflict' });
  });

  it('booked the day before is not reminded of the same day', async () => {
    const { db } = database;
    await db.shopSettings.update({ where: { id: 1 }, data: { remindDayBefore: true } });
    const { visitId } = await booked();
    await db.visit.update({ where: { id: visitId }, data: { createdAt: new Date('2026-11-30T15:00:00Z') } });
    for (let i = 0; i < 2; i++) expect(await remindOfTomorrow(ctx(new Date('2026-11-30T19:30:00Z')))).toBe(0);
    expect(await db.outboxMessage.count({ where: { visitId, kind: 'visit_reminder' } })).toBe(0);
  });

  it('is reminded of once, the day before from noon, and again only for another time', async () => {
    const { db } = database;
    const { visitId } = await booked();
    await db.visit.update({ where: { id: visitId }, data: { createdAt: new Date('2026-11-20T00:00:00Z') } });
    const noon = new Date('2026-11-30T19:30:00Z');
    expect(await remindOfTomorrow(ctx(noon))).toBe(0);
    await db.shopSettings.update({ where: { id: 1 }, data: { remindDayBefore: true } });
    expect(await remindOfTomorrow(ctx())).toBe(0);
    expect((await Promise.all([remindOfTomorrow(ctx(noon)), remindOfTomorrow(ctx(noon))])).reduce((a, b) => a + b)).toBe(1);
    expect(await remindOfTomorrow(ctx(noon))).toBe(0);
    const [letter] = await db.outboxMessage.findMany({ where: { visitId, kind: 'visit_reminder' } });
    expect(letter?.subject).toMatch(/^Visit tomorrow/);
    // The invitation of before can still be answered.
    expect(await db.customerLink.count({ where: { visitId, revokedAt: null } })).toBe(2);
  });

  it('moved the day before was told of its time that day, and is not reminded of it again', async () => {
    const { db } = database;
    await db.shopSettings.update({ where: { id: 1 }, data: { remindDayBefore: true } });
    const { visitId } = await booked();
    await db.visit.update({ where: { id: visitId }, data: { createdAt: new Date('2026-11-20T00:00:00Z') } });
    const { startsAt } = await db.visit.findUniqueOrThrow({ where: { id: visitId } });
    await db.visitEvent.create({ data: { visitId, at: new Date('2026-11-29T15:00:00Z'), kind: 'moved' } });
    const reminded = () => db.outboxMessage.count({ where: { visitId, kind: 'visit_reminder' } });
    await db.visitEvent.create({ data: { visitId, at: new Date('2026-11-30T15:00:00Z'), kind: 'moved' } });
    const noon = new Date('2026-11-30T19:30:00Z');
    for (let i = 0; i < 2; i++) expect(await remindOfTomorrow(ctx(noon))).toBe(0);
    expect([await reminded(), (await db.visit.findUniqueOrThrow({ where: { id: visitId } })).remindedOf]).toEqual([0, startsAt]);
    // Of a move of the day before that, and an answer of today, it is.
    await db.visit.update({ where: { id: visitId }, data: { remindedOf: null } });
    await db.visitEvent.updateMany({ where: { visitId, at: new Date('2026-11-30T15:00:00Z') }, data: { kind: 'confirmed' } });
    expect(await remindOfTomorrow(ctx(noon))).toBe(1);
    expect(await reminded()).toBe(1);
  });
});
