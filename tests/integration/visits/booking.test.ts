import { beforeAll, describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { bookVisit } from '@/lib/features/visits/verbs/book-visit';
import { cancelVisit } from '@/lib/features/visits/verbs/cancel-visit';
import { moveVisit } from '@/lib/features/visits/verbs/move-visit';
import type { BookVisit } from '@/lib/schemas/visits/visits';
import { useDatabase } from '../../support/database';
import { ANY_TIME, haveOneUnit, personRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-11-25T15:00:00Z');
const date = localDate('2026-11-30'); // a Monday

const makePerson = (over: Parameters<typeof personRow>[0] = {}) =>
  database.db.user.create({ data: personRow({ skills: [], shifts: ANY_TIME, ...over }) });
let actor: { userId: string };
let techId: string;
beforeAll(async () => {
  actor = { userId: (await makePerson({ role: 'dispatcher' })).id };
});

async function kitchenWithTasks(over: Record<string, unknown> = {}, unit: Record<string, unknown> = {}) {
  const made = await haveOneUnit(database.db, { kitchen: { serviceHours: [], ...over }, unit });
  const [coil, drain] = made.tasks;
  return { kitchen: made.kitchen, unit: made.unit, coil: coil!, drain: drain! };
}
const ctx = () => ({ db: database.db, actor, now, baseUrl: 'http://localhost:3000' });
const input = (over: Partial<BookVisit>): BookVisit => ({
  kitchenId: '',
  technicianId: techId,
  date,
  from: '09:00',
  minutes: 60,
  taskIds: [],
  note: '',
  fixed: false,
  anyway: false,
  ...over,
});

describe('booking', () => {
  beforeAll(async () => {
    techId = (await makePerson({ name: 'Tova' })).id;
  });

  it('takes the low side along with a coil cleaning and writes the time in the kitchen zone', async () => {
    const { kitchen, coil } = await kitchenWithTasks();
    const { visitId } = await bookVisit(ctx(), input({ kitchenId: kitchen.id, taskIds: [coil.id] }));
    const visit = await database.db.visit.findUniqueOrThrow({
      where: { id: visitId },
      include: { tasks: { include: { task: true } }, events: true },
    });
    expect(visit.tasks.map((t) => t.task.kindKey).sort()).toEqual(['coil_cleaning', 'drain_inspection', 'evaporator_inspection']);
    expect(visit.startsAt.toISOString()).toBe('2026-11-30T16:00:00.000Z'); // 09:00 in Denver, UTC−7
    expect(visit.events.map((e) => e.kind)).toEqual(['booked']);
  });

  it('names the visit in the way when a technician would be in two places', async () => {
    const { kitchen, coil } = await kitchenWithTasks();
    await expect(bookVisit(ctx(), input({ kitchenId: kitchen.id, taskIds: [coil.id], from: '09:30' }))).rejects.toMatchObject({
      code: 'overlap',
      message: expect.stringContaining('Tova is at'),
    });
    expect(await database.db.visitTask.count({ where: { taskId: coil.id } })).toBe(0);
  });

  it('lets visits touch end to start', async () => {
    const { kitchen, drain } = await kitchenWithTasks();
    await expect(bookVisit(ctx(), input({ kitchenId: kitchen.id, taskIds: [drain.id], from: '10:00' }))).resolves.toBeTruthy();
  });

  it('refuses a task that already stands on an open visit', async () => {
    const { kitchen, drain } = await kitchenWithTasks();
    await bookVisit(ctx(), input({ kitchenId: kitchen.id, taskIds: [drain.id], from: '11:00' }));
    await expect(bookVisit(ctx(), input({ kitchenId: kitchen.id, taskIds: [drain.id], from: '14:00' }))).rejects.toMatchObject({
      code: 'conflict',
    });
  });

  it('asks before booking outside service hours, and books when it is agreed', async () => {
    const { kitchen, drain } = await kitchenWithTasks({ serviceHours: [{ weekday: 0, from: '14:00', to: '16:00' }] });
    const early = input({ kitchenId: kitchen.id, taskIds: [drain.id], from: '06:00' });
    await expect(bookVisit(ctx(), early)).rejects.toMatchObject({ code: 'invalid', field: 'anyway' });
    await expect(bookVisit(ctx(), { ...early, anyway: true })).resolves.toBeTruthy();
  });

  it('never sends someone without the skill to a flammable charge', async () => {
    const { kitchen, drain } = await kitchenWithTasks({}, { refrigerant: 'R290' });
    const asked = input({ kitchenId: kitchen.id, taskIds: [drain.id], from: '16:00', anyway: true });
    await expect(bookVisit(ctx(), asked)).rejects.toMatchObject({ field: 'technicianId' });
    const trained = await makePerson({ skills: ['flammable'] });
    await expect(bookVisit(ctx(), { ...asked, technicianId: trained.id })).resolves.toBeTruthy();
  });
});

describe('moving and cancelling', () => {
  it('keeps reason and history, raises the sequence, tells who changed it first, frees the tasks', async () => {
    techId = (await makePerson()).id;
    const { kitchen, drain } = await kitchenWithTasks();
    const { visitId } = await bookVisit(ctx(), input({ kitchenId: kitchen.id, taskIds: [drain.id] }));
    const to = {
      visitId,
      version: 1,
      technicianId: techId,
      date,
      from: '13:00',
      minutes: 45,
      reason: 'Hood cleaning that morning',
      anyway: false,
    };
    await moveVisit(ctx(), to);
    await expect(moveVisit(ctx(), to)).rejects.toMatchObject({ code: 'conflict', message: expect.stringContaining('Hood cleaning') });
    const moved = await database.db.visit.findUniqueOrThrow({ where: { id: visitId } });
    expect([moved.version, moved.sequence, moved.startsAt.toISOString()]).toEqual([2, 1, '2026-11-30T20:00:00.000Z']);

    await expect(cancelVisit(ctx(), { visitId, version: 1, reason: 'Not seen that it moved' })).rejects.toMatchObject({ code: 'conflict' });
    await cancelVisit(ctx(), { visitId, version: 2, reason: 'Kitchen closed for a wedding' });
    await expect(cancelVisit(ctx(), { visitId, version: 3, reason: 'again' })).rejects.toMatchObject({ code: 'conflict' });
    const events = await database.db.visitEvent.findMany({ where: { visitId }, orderBy: { id: 'asc' } });
    expect(events.map((e) => e.kind).sort()).toEqual(['booked', 'cancelled', 'moved']);
    await expect(bookVisit(ctx(), input({ kitchenId: kitchen.id, taskIds: [drain.id] }))).resolves.toBeTruthy();
  });
});

describe('the database itself', () => {
  it('leaves no overlap after 10,000 racing bookings', async () => {
    const { kitchen } = await kitchenWithTasks();
    const techs = await Promise.all([1, 2, 3].map(() => makePerson()));
    let taken = 0;
    let refused = 0;
    // Starts every 7 minutes over two days, an hour long: most of them must collide.
    const attempts = Array.from({ length: 10_000 }, (_, i) => ({
      tech: techs[i % 3]!.id,
      start: Date.parse('2027-01-04T00:00:00Z') + ((i * 7919) % 411) * 7 * 60_000,
    }));
    const workers = Array.from({ length: 5 }, async (_, w) => {
      for (let i = w; i < attempts.length; i += 5) {
        const { tech, start } = attempts[i]!;
        const inserted = await database.db.$executeRaw`
          INSERT INTO "Visit" (id, "kitchenId", "technicianId", "startsAt", "endsAt", "updatedAt")
          VALUES (gen_random_uuid(), ${kitchen.id}::uuid, ${tech}::uuid, ${new Date(start)}, ${new Date(start + 3_600_000)}, now())
          ON CONFLICT DO NOTHING`;
        if (inserted) taken++;
        else refused++;
      }
    });
    await Promise.all(workers);
    const overlaps = await database.db.$queryRaw<{ n: bigint }[]>`
      SELECT count(*) AS n FROM "Visit" a JOIN "Visit" b ON a.id < b.id AND a."technicianId" = b."technicianId"
        AND tstzrange(a."startsAt", a."endsAt") && tstzrange(b."startsAt", b."endsAt") WHERE a.status <> 'cancelled' AND b.status <> 'cancelled'`;
    expect(Number(overlaps[0]!.n)).toBe(0);
    expect(taken + refused).toBe(10_000);
    expect(taken).toBeGreaterThan(50);
  });

  it('refuses to close a coil cleaning whose low side nobody looked at, or whose coil nobody graded', async () => {
    techId = (await makePerson()).id;
    const { kitchen, unit, coil } = await kitchenWithTasks();
    const { visitId } = await bookVisit(ctx(), input({ kitchenId: kitchen.id, taskIds: [coil.id] }));
    await database.db.visitTask.updateMany({ where: { visitId, taskId: coil.id }, data: { outcome: 'done' } });
    const close = () => database.db.visit.update({ where: { id: visitId }, data: { status: 'done' } });
    await expect(close()).rejects.toThrow(/low side not looked at/);
    const found = { visitId, unitId: unit.id, at: now };
    await database.db.finding.create({ data: { ...found, aspect: 'ice', grade: 'dry' } });
    await expect(close()).rejects.toThrow(/low side not looked at/);
    await database.db.finding.create({ data: { ...found, aspect: 'drain', notLookedWhy: 'Panel riveted shut' } });
    await expect(close()).rejects.toThrow(/coil not graded as found and as left/);
    await database.db.finding.create({ data: { ...found, aspect: 'coil', grade: 'furred' } });
    await database.db.finding.create({ data: { ...found, aspect: 'coil', phase: 'left', grade: 'bare' } });
    await expect(close()).resolves.toMatchObject({ status: 'done' });
  });
});
