import { describe, expect, it, vi } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { claimRun, requeueAbandoned } from '@/lib/features/planning/verbs/plan-claim';
import { PlanCancelled, proposeWeek } from '@/lib/core/planning';
import type { Proposal } from '@/lib/core/planning/proposal';
import { highsLp } from '@/lib/features/planning/verbs/highs-lp';
import { runPlan } from '@/lib/features/planning/verbs/run-plan';
import type { Search } from '@/lib/features/planning/verbs/search';
import { cancelPlan, startPlan } from '@/lib/features/planning/verbs/start-plan';
import { haveOneUnit } from '@/tests/support/factories';
import { useDatabase } from '@/tests/support/database';

const database = useDatabase();
const NOW = new Date('2026-03-01T18:00:00Z');
const clock = () => performance.now();
const EVERY_DAY = Array.from({ length: 7 }, (_, weekday) => ({ weekday, from: '07:00', to: '16:00' }));

const inThisProcess: Search = async (problem, options) => proposeWeek(problem, { ...options, now: clock, lp: await highsLp() });

async function queued() {
  const have = await haveOneUnit(database.db, {
    kitchen: { lat: 39.7, lng: -105, serviceHours: EVERY_DAY },
    unit: { refrigerant: 'R134a' },
    person: { role: 'technician', skills: ['flammable', 'roof'], shifts: EVERY_DAY, homeLat: 39.8, homeLng: -105.1 },
  });
  await database.db.task.updateMany({ data: { dueOn: new Date('2026-03-03T00:00:00Z') } });
  const ctx = { db: database.db, actor: { userId: have.person.id }, now: NOW };
  return { have, ctx, runId: await startPlan(ctx, { day: localDate('2026-03-04') }) };
}

const stored = async (runId: string) => database.db.planRun.findUniqueOrThrow({ where: { id: runId } });

describe('a search for the week', () => {
  it('ends with a proposal that books nothing yet', async () => {
    const { have, ctx, runId } = await queued();
    await runPlan(ctx, runId, inThisProcess, clock);
    const run = await stored(runId);
    expect(run.status).toBe('done');
    const proposal = run.result as unknown as Proposal;
    expect(proposal.visits).toMatchObject([{ kitchenId: have.kitchen.id, technicianId: have.person.id, units: 1 }]);
    expect([...(proposal.visits[0]?.taskIds ?? [])].sort()).toEqual(have.tasks.map((t) => t.id).sort());
    expect((proposal.visits[0]?.startMs ?? 1) % 300_000).toBe(0);
    expect(proposal.proven).toBe(true);
    expect(await database.db.visit.count()).toBe(0);
  });

  it('cancelled on the way leaves nothing behind', async () => {
    const { ctx, runId } = await queued();
    const endless: Search = (_problem, options) =>
      new Promise((_, reject) => {
        options.onImprovement({ visits: [], cost: {} as never, afterMs: 1 });
        options.signal.addEventListener('abort', () => reject(new PlanCancelled()));
        void cancelPlan(ctx, runId);
      });
    await runPlan(ctx, runId, endless, clock);
    expect(await stored(runId)).toMatchObject({ status: 'cancelled', result: null, error: '' });
    expect(await database.db.visit.count()).toBe(0);
  });

  it('that breaks down says so, and the queue hears of it', async () => {
    const { ctx, runId } = await queued();
    await expect(runPlan(ctx, runId, () => Promise.reject(new Error('out of memory')), clock)).rejects.toThrow('out of memory');
    expect(await stored(runId)).toMatchObject({ status: 'failed', error: expect.stringMatching(/could not be planned/) });
  });

  it('is taken up once, whoever is asked to', async () => {
    const { ctx, runId } = await queued();
    await runPlan(ctx, runId, inThisProcess, clock);
    await runPlan(ctx, runId, () => Promise.reject(new Error('searched twice')), clock);
    expect((await stored(runId)).status).toBe('done');
  });

  it('of a dead process is taken up by another, and what the dead one wakes up to write is not taken', async () => {
    const { ctx, runId } = await queued();
    const silent = () => database.db.$executeRaw`UPDATE "PlanRun" SET "beatAt" = now() - interval '1 minute' WHERE id = ${runId}::uuid`;
    let wake: ((e: Error) => void) | null = null;
    const hung: Search = () => new Promise((_, reject) => (wake = reject));
    const dead = runPlan(ctx, runId, hung, clock);
    // It is searching, not only claimed.
    await vi.waitFor(() => expect(wake).not.toBeNull(), 20_000);
    expect((await stored(runId)).status).toBe('running');
    expect(await requeueAbandoned(database.db)).toEqual([]);
    await vi.waitFor(async () => {
      await silent();
      expect(await requeueAbandoned(database.db)).toEqual([runId]);
    });
    await runPlan(ctx, runId, inThisProcess, clock);
    (wake as ((e: Error) => void) | null)?.(new Error('too late'));
    await expect(dead).rejects.toThrow('too late');
    expect(await stored(runId)).toMatchObject({ status: 'done', error: '', tries: 2 });
  });

  it('of a living process is left alone by one that starts', async () => {
    const { ctx, runId } = await queued();
    const slow: Search = async (problem, options) => {
      await new Promise((ok) => setTimeout(ok, 400));
      expect(await requeueAbandoned(database.db)).toEqual([]);
      return inThisProcess(problem, options);
    };
    await runPlan(ctx, runId, slow, clock);
    expect(await stored(runId)).toMatchObject({ status: 'done', tries: 1 });
  });

  it('is not taken up for ever when it takes its process down', async () => {
    const { runId } = await queued();
    for (let i = 0; i < 3; i++) {
      expect(await claimRun(database.db, runId)).not.toBeNull();
      await database.db.$executeRaw`UPDATE "PlanRun" SET "beatAt" = now() - interval '1 minute' WHERE id = ${runId}::uuid`;
      await requeueAbandoned(database.db);
    }
    expect(await stored(runId)).toMatchObject({ status: 'failed', error: expect.stringContaining('three times') });
  });

  it('plans kitchens, technicians and a shop that have no position, and says on what guess', async () => {
    const { have, ctx, runId } = await queued();
    await database.db.kitchen.updateMany({ data: { lat: null, lng: null } });
    await database.db.user.updateMany({ data: { homeLat: null, homeLng: null } });
    await runPlan(ctx, runId, inThisProcess, clock);
    const { visits, input, proven } = (await stored(runId)).result as unknown as Proposal;
    expect(visits.map((v) => v.kitchenId)).toContain(have.kitchen.id);
    expect(visits.every((v) => v.driveMinutes === 25)).toBe(true);
    expect(input.map((f) => [f.code, f.weight])).toEqual([
      ['no_shop_place', 'assumed'],
      ['no_kitchen_place', 'assumed'],
      ['no_costs', 'assumed'],
    ]);
    expect(proven).toBeTypeOf('boolean');
  });

  it('is not searched when nobody has a shift: it says so, and calls nothing the best', async () => {
    const { ctx, runId } = await queued();
    await database.db.user.updateMany({ data: { shifts: [] } });
    await runPlan(ctx, runId, () => Promise.reject(new Error('searched')), clock);
    const run = await stored(runId);
    const { visits, input, proven } = run.result as unknown as Proposal;
    expect([run.status, visits.length, proven]).toEqual(['done', 0, false]);
    expect(new Set(input.filter((f) => f.weight === 'stops').map((f) => f.code))).toEqual(new Set(['no_shift']));
  });
});
