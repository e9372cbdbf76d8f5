import { describe, expect, it } from 'vitest';
import { nearMemory } from '@/lib/core/planning/bound/memory';
import { price } from '@/lib/core/planning/bound/pricing';
import { runOut } from '@/lib/core/planning/steps';
import { compileWeek } from '@/lib/core/planning/week/compile';
import { PlanCancelled, proposeWeek, type LpSolver } from '@/lib/core/planning';
import { highsLp } from '@/lib/features/planning/verbs/highs-lp';
import { shopWeek } from '../../support/planning-weeks';

/** Counts what is opened and closed. */
function counted(solver: LpSolver): { lp: LpSolver; open: () => number; opened: () => number } {
  let opened = 0;
  let closed = 0;
  return {
    lp: {
      open: () => {
        opened++;
        const model = solver.open();
        return { ...model, close: () => (closed++, model.close()) };
      },
    },
    open: () => opened - closed,
    opened: () => opened,
  };
}

const freeze = <T>(value: T): T => {
  if (typeof value === 'object' && value !== null) Object.values(Object.freeze(value)).forEach(freeze);
  return value;
};
const pause = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
const week = freeze(shopWeek(3, { kitchens: 12, technicians: 2, days: 3 }));

describe('cancelling', () => {
  it('stops at once when already aborted', async () => {
    await expect(
      proposeWeek(week, {
        seed: 1,
        timeLimitMs: 1000,
        now: () => performance.now(),
        signal: AbortSignal.abort(),
        pause,
      }),
    ).rejects.toThrow(PlanCancelled);
  });

  it.each([
    ['while searching', 0],
    ['while bounding', 1],
  ])(
    '%s: leaves nothing open and says nothing more',
    async (_, atOpened) => {
      const solver = counted(await highsLp());
      const stop = new AbortController();
      let heard = 0;
      const work = proposeWeek(week, {
        seed: 1,
        timeLimitMs: 60_000,
        now: () => performance.now(),
        lp: solver.lp,
        signal: stop.signal,
        onImprovement: () => heard++,
        pause: async () => {
          if (solver.opened() >= atOpened) stop.abort();
          await pause();
        },
      });
      await expect(work).rejects.toThrow('nothing was changed');
      const before = heard;
      await pause();
      expect(heard).toBe(before);
      expect(solver.opened()).toBeGreaterThanOrEqual(atOpened);
      expect(solver.open()).toBe(0);
    },
    60_000,
  );

  it('closes everything after a plan and after running out of time', async () => {
    const solver = counted(await highsLp());
    const plan = await proposeWeek(week, { seed: 1, timeLimitMs: 600, now: () => performance.now(), lp: solver.lp });
    expect(plan.visits.length).toBeGreaterThan(0);
    expect(solver.open()).toBe(0);
  }, 60_000);

  it('gives the same plan after a cancelled one as before', async () => {
    const whole = () => proposeWeek(week, { seed: 9, timeLimitMs: 1e9, now: () => performance.now(), effort: 0.3, pause });
    const first = await whole();
    const stop = new AbortController();
    const cut = proposeWeek(week, {
      seed: 9,
      timeLimitMs: 1e9,
      now: () => performance.now(),
      signal: stop.signal,
      pause: async () => stop.abort(),
    });
    await expect(cut).rejects.toThrow(PlanCancelled);
    expect(await whole()).toEqual(first);
  }, 60_000);

  it('lets other work run in between', async () => {
    let turns = 0;
    await proposeWeek(week, {
      seed: 1,
      timeLimitMs: 1e9,
      now: () => performance.now(),
      pause: async () => void (turns++, await pause()),
    });
    expect(turns).toBeGreaterThan(1);
  }, 60_000);

  it('marks a plan cut short by time as unfinished, and still sound', async () => {
    let ticks = 0;
    const plan = await proposeWeek(week, { seed: 1, timeLimitMs: 40, now: () => ticks++ });
    expect(plan.finished).toBe(false);
    expect(plan.lowerBound).toBeLessThanOrEqual(plan.cost.total);
  });
});

describe('pricing a shift of a full week', () => {
  it('hands back control every few labels, so that time can run out within it, and comes to the same', () => {
    const { model } = compileWeek(shopWeek(4, { kitchens: 40, technicians: 1, days: 1 }));
    // Far too high, as duals are at first: almost every route pays.
    const duals = new Float64Array(model.rows).fill(500);
    const work = price(model, 0, duals, nearMemory(model, 4), 10_000);
    let handed = 0;
    let step = work.next();
    for (; !step.done; step = work.next()) handed++;
    expect(handed).toBeGreaterThan(5);
    expect(step.value).toEqual(runOut(price(model, 0, duals, nearMemory(model, 4), 10_000)));
  });
});
