import { beforeEach, describe, expect, it } from 'vitest';
import { cancelVisit } from '@/lib/features/visits/verbs/cancel-visit';
import { giveVisit } from '@/lib/features/visits/verbs/give-visit';
import { moveVisit } from '@/lib/features/visits/verbs/move-visit';
import { visitToManage } from '@/lib/features/visits/reads/visits';
import { localDate } from '@/lib/core/calendar';
import { useDatabase } from '../../support/database';
import { finding, Tablet } from '../tablet/a-tablet';
import { ANY_TIME, haveOneUnit, personRow, visitRow, visitTaskRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-11-25T15:00:00Z');
let made: Awaited<ReturnType<typeof haveOneUnit>>;
let actor: { userId: string };
let visitId: string;
const ctx = (at = now) => ({ db: database.db, actor, now: at, baseUrl: 'http://localhost:3000' });
const someone = async (over: Parameters<typeof personRow>[0] = {}) =>
  (await database.db.user.create({ data: personRow({ role: 'technician', shifts: ANY_TIME, ...over }) })).id;
const stands = () => database.db.visit.findUniqueOrThrow({ where: { id: visitId }, include: { tasks: true } });
const news = () => database.db.outboxMessage.count({ where: { visitId, kind: 'visit_cancelled' } });

beforeEach(async () => {
  made = await haveOneUnit(database.db, {
    kitchen: { serviceHours: [], contactEmail: 'chef@example.com' },
    unit: { refrigerant: 'R290' },
    person: { name: 'Tova', shifts: ANY_TIME },
  });
  actor = { userId: await someone({ role: 'dispatcher', name: 'Idris' }) };
  const start = new Date(now.getTime() - 30 * 60_000);
  const visit = visitRow(made.kitchen.id, made.person.id, start, 90, { status: 'started', arrivedAt: start });
  ({ id: visitId } = await database.db.visit.create({ data: visit }));
  await database.db.visitTask.createMany({ data: made.tasks.map((t) => visitTaskRow(visitId, t)) });
});

describe('a started visit', () => {
  it('is given to someone else with a reason, its time and its tasks as they were', async () => {
    const before = await stands();
    const bastian = await someone({ name: 'Bastian', skills: ['flammable'] });
    const gift = { visitId, version: 1, technicianId: bastian, reason: 'Tova’s van broke down' };
    await giveVisit(ctx(), gift);
    const after = await stands();
    expect(after).toMatchObject({ technicianId: bastian, status: 'started', version: 2, startsAt: before.startsAt, endsAt: before.endsAt });
    expect(after.tasks.every((t) => t.open)).toBe(true);
    const seen = await visitToManage(database.db, visitId);
    expect(seen?.events).toMatchObject([{ kind: 'reassigned', reason: 'Tova’s van broke down', by: 'Idris' }]);
    await expect(giveVisit(ctx(), { ...gift, technicianId: made.person.id })).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('reassigned (Tova’s van broke down)'),
    });
  });

  it('goes to nobody who may not do it or is elsewhere, and its time does not move', async () => {
    const gift = { visitId, version: 1, reason: 'Tova’s van broke down' };
    const unskilled = await someone({ skills: [] });
    await expect(giveVisit(ctx(), { ...gift, technicianId: unskilled })).rejects.toMatchObject({ code: 'invalid', field: 'technicianId' });
    const busy = await someone({ name: 'Bastian', skills: ['flammable'] });
    await database.db.visit.create({ data: visitRow(made.kitchen.id, busy, now, 60) });
    await expect(giveVisit(ctx(), { ...gift, technicianId: busy })).rejects.toMatchObject({
      code: 'overlap',
      message: expect.stringMatching(/^Bastian is at .* Choose someone else/),
    });
    const elsewhen = { date: localDate('2026-11-30'), from: '09:00', minutes: 60, anyway: true };
    await expect(moveVisit(ctx(), { ...gift, ...elsewhen, technicianId: busy })).rejects.toMatchObject({ code: 'conflict' });
    expect(await stands()).toMatchObject({ version: 1, technicianId: made.person.id });
  });

  it('is cancelled with a reason; its tasks are free again, and the kitchen hears of it while it is news', async () => {
    await cancelVisit(ctx(), { visitId, version: 1, reason: 'Nobody could get in' });
    const after = await stands();
    expect(after).toMatchObject({ status: 'cancelled', cancelReason: 'Nobody could get in' });
    expect(after.tasks.some((t) => t.open)).toBe(false);
    expect(await news()).toBe(1);
  });

  it('cancelled the day after is no news to the kitchen', async () => {
    await cancelVisit(ctx(new Date(now.getTime() + 86_400_000)), { visitId, version: 1, reason: 'Never finished' });
    expect(await news()).toBe(0);
  });

  it('is on the tablet of whoever has it now, and the other tablet’s work is taken in with a question', async () => {
    const [tova, june] = [new Tablet(database.db, made.person), new Tablet(database.db, { id: await someone(), name: 'June' })];
    await database.db.user.update({ where: { id: june.person.id }, data: { name: 'June', skills: ['flammable'] } });
    await tova.refresh();
    await giveVisit(ctx(), { visitId, version: 1, technicianId: june.person.id, reason: 'Tova’s van broke down' });
    expect((await june.refresh()).changed).toMatchObject([{ id: visitId, status: 'started', nowWith: null }]);
    const late = await tova.send([tova.make(visitId, 'finding.set', finding(made.unit.id, 'coil', 'matted'))]);
    expect(late.results).toMatchObject([{ outcome: 'conflict', note: expect.stringContaining('The visit is June’s now.') }]);

    await cancelVisit(ctx(), { visitId, version: 2, reason: 'Nobody could get in' });
    const closing = { leftAt: now.toISOString(), taskIds: made.tasks.map((t) => t.id) };
    const closed = await june.send([june.make(visitId, 'visit.close', closing)]);
    expect(closed.results).toMatchObject([{ outcome: 'conflict', note: expect.stringContaining('The office had cancelled') }]);
    expect(await stands()).toMatchObject({ status: 'cancelled' });
    expect(await database.db.finding.count({ where: { visitId } })).toBe(1);
  });
});
