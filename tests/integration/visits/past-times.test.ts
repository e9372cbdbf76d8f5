import { beforeAll, describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import type { Proposal } from '@/lib/core/planning/proposal';
import { STORED_PROPOSAL } from '@/lib/database/stored/planning';
import { pastNotClosed } from '@/lib/features/visits/reads/open-visits';
import { acceptPlan, undoPlan } from '@/lib/features/planning/verbs/accept-plan';
import { cancelPlan, startPlan } from '@/lib/features/planning/verbs/start-plan';
import { bookVisit } from '@/lib/features/visits/verbs/book-visit';
import { moveVisit } from '@/lib/features/visits/verbs/move-visit';
import { useDatabase } from '../../support/database';
import { ANY_TIME, haveOneUnit, personRow, visitRow } from '../../support/factories';

const nothing = {
  total: 0, driving: 0, drivingMinutes: 0, visits: 0, overtime: 0, overtimeMinutes: 0, lateness: 0, latenessMinutes: 0, early: 0, overdue: 0, left: 0,
}; // prettier-ignore
const EMPTY_PROPOSAL: Proposal = {
  visits: [], unplaced: [], later: 0, cost: nothing, input: [], due: { tasks: 0, kitchens: 0, searched: 0 }, couldSaveMinutes: null,
  proven: false, kept: 0, searchMs: 0, seed: 1,
}; // prettier-ignore

const database = useDatabase();
// 08:00 on a Wednesday in Denver.
const now = new Date('2026-11-25T15:00:00Z');
let actor: { userId: string };
const ctx = (at = now) => ({ db: database.db, actor, now: at, baseUrl: 'http://localhost:3000' });
const make = () =>
  haveOneUnit(database.db, {
    kitchen: { serviceHours: [], name: 'Pearl Row', contactEmail: 'chef@example.com' },
    person: { shifts: ANY_TIME, name: 'Tova' },
  });
type Made = Awaited<ReturnType<typeof make>>;
const asked = (made: Made, date: string, from: string) => ({
  kitchenId: made.kitchen.id,
  technicianId: made.person.id,
  date: localDate(date),
  from,
  minutes: 60,
  taskIds: [made.tasks[1]!.id],
  note: '',
  fixed: false,
  anyway: false,
});

beforeAll(async () => {
  actor = { userId: (await database.db.user.create({ data: personRow({ role: 'dispatcher' }) })).id };
});

describe('a time that is past', () => {
  it('is booked only when that is meant, and the kitchen is not written to', async () => {
    const made = await make();
    await expect(bookVisit(ctx(), asked(made, '2026-11-24', '09:00'))).rejects.toMatchObject({
      code: 'invalid',
      field: 'anyway',
      message: expect.stringContaining('Tuesday 24 November, 09:00, is past.'),
    });
    const { visitId } = await bookVisit(ctx(), { ...asked(made, '2026-11-24', '09:00'), anyway: true });
    expect(await database.db.outboxMessage.count({ where: { visitId } })).toBe(0);
  });

  it('is nothing to move back to', async () => {
    const made = await make();
    const { visitId } = await bookVisit(ctx(), asked(made, '2026-11-26', '09:00'));
    const { technicianId, minutes } = asked(made, '2026-11-26', '09:00');
    const slot = { visitId, technicianId, minutes };
    await moveVisit(ctx(), { ...slot, version: 1, date: localDate('2026-11-30'), from: '09:00', reason: 'The chef asked', anyway: false });
    const back = { ...slot, version: 2, date: localDate('2026-11-26'), from: '09:00', reason: 'Moved back', anyway: true, back: true };
    const nextDay = ctx(new Date('2026-11-27T15:00:00Z'));
    await expect(moveVisit(nextDay, back)).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringMatching(/^Thursday 26 November, 09:00, is past/),
    });
    await expect(moveVisit(ctx(), back)).resolves.toBeUndefined();
  });

  it('is left out when a proposal is accepted late, and the others are booked', async () => {
    const made = [await make(), await make()];
    const proposed = made.map((m, i) => {
      const startMs = now.getTime() + (i === 0 ? -30 : 60) * 60_000;
      return {
        ...{ key: `v${i}`, kitchenId: m.kitchen.id, kitchen: m.kitchen.name, customer: m.customer.name, timeZone: m.kitchen.timeZone },
        ...{ technicianId: m.person.id, technician: m.person.name, startMs, endMs: startMs + 45 * 60_000 },
        ...{ driveMinutes: 0, taskIds: [m.tasks[1]!.id], units: 1, overdue: 0 },
      };
    });
    const run = await database.db.planRun.create({
      data: {
        weekStart: new Date('2026-11-23T00:00:00Z'),
        status: 'done',
        params: {},
        result: STORED_PROPOSAL.write({ ...EMPTY_PROPOSAL, visits: proposed }),
        createdById: actor.userId,
      },
    });
    const accepted = await acceptPlan(ctx(), { runId: run.id, visits: ['v0', 'v1'].map((key) => ({ key, fixed: false })) });
    expect(accepted.booked.map((b) => b.key)).toEqual(['v1']);
    expect(accepted.refused).toEqual([
      { key: 'v0', message: 'Wednesday 25 November, 07:30, is past by now, so Pearl Row was not booked. Propose the week again.' },
    ]);
  });
});

describe('a proposal', () => {
  it('is booked as the dispatcher left it, once it is done and only once, and taken back whole', async () => {
    const { db } = database;
    const [made, other] = [await make(), await db.user.create({ data: personRow({ role: 'technician', shifts: ANY_TIME }) })];
    const soon = now.getTime() + 3_600_000;
    const visit = {
      ...{
        key: 'v',
        kitchenId: made.kitchen.id,
        kitchen: made.kitchen.name,
        customer: made.customer.name,
        timeZone: made.kitchen.timeZone,
      },
      ...{ technicianId: made.person.id, technician: made.person.name, startMs: soon, endMs: soon + 45 * 60_000 },
      ...{ driveMinutes: 0, taskIds: [made.tasks[1]!.id], units: 1, overdue: 0 },
    };
    // Asked for on a Thursday: the week from its Monday.
    const runId = await startPlan(ctx(), { day: localDate('2026-12-03') });
    const run = () => db.planRun.findUniqueOrThrow({ where: { id: runId } });
    expect(await run()).toMatchObject({ status: 'queued', weekStart: new Date('2026-11-30'), createdById: actor.userId });
    const result = STORED_PROPOSAL.write({ ...EMPTY_PROPOSAL, visits: [visit] });
    await db.planRun.update({ where: { id: runId }, data: { status: 'running', result } });
    const choice = { key: 'v', technicianId: other.id, startMs: soon + 7_200_000, fixed: true };
    const accept = () => acceptPlan(ctx(), { runId, visits: [choice] });
    await expect(accept()).rejects.toMatchObject({ code: 'conflict' });
    await db.planRun.update({ where: { id: runId }, data: { status: 'done' } });
    const [booked] = (await accept()).booked;
    const stand = () => db.visit.findUniqueOrThrow({ where: { id: booked?.visitId }, include: { tasks: true } });
    expect(await stand()).toMatchObject({
      ...{ technicianId: other.id, fixed: true, status: 'booked', createdById: actor.userId },
      ...{ startsAt: new Date(soon + 7_200_000), endsAt: new Date(soon + 7_200_000 + 45 * 60_000) },
    });
    expect((await stand()).tasks.map((t) => t.taskId)).toEqual(visit.taskIds);
    await expect(accept()).rejects.toMatchObject({ code: 'conflict' });
    // What is booked is not undone by dropping the search.
    await cancelPlan(ctx(), runId);
    expect((await run()).status).toBe('accepted');
    expect(await undoPlan(ctx(), runId)).toBe(1);
    expect((await stand()).status).toBe('cancelled');
    expect(await undoPlan(ctx(), runId)).toBe(0);
    expect((await run()).status).toBe('undone');
  });
});

describe('a visit that is past and not closed', () => {
  it('stands on a list of its own, the oldest first, with how many more there are', async () => {
    const made = await make();
    const before = (await pastNotClosed(database.db, now, 20)).total;
    const days = (n: number) => new Date(now.getTime() - n * 86_400_000);
    const rows = (['booked', 'started', 'done', 'cancelled'] as const).map((status, i) =>
      visitRow(made.kitchen.id, made.person.id, days(100 - i), 60, { status, cancelReason: status === 'cancelled' ? 'Closed' : '' }),
    );
    await database.db.visit.createMany({ data: [...rows, visitRow(made.kitchen.id, made.person.id, days(0), 60)] });
    const found = await pastNotClosed(database.db, now, 1);
    expect(found.total).toBe(before + 2);
    expect(found.visits).toMatchObject([{ id: rows[0]!.id, kitchen: 'Pearl Row', technician: 'Tova', started: false }]);
  });
});
