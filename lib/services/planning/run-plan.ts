import 'server-only';
import { toLocalDate } from '../../data/dates';
import { proposeWeek, PlanCancelled } from '../../core/planning';
import type { Db } from '../../data/client';
import type { Prisma } from '../../data/generated/client';
import { weekProblem } from '../../data/week-problem';
import { highsLp } from './highs-lp';
import { toProposal } from './to-proposal';

const TIME_LIMIT_MS = 8_000;
const LOOK_EVERY_MS = 250;
const SEED = 20261125;

/**
 * Searches for the week of a queued run, writing each better plan as it is found. A run cancelled meanwhile stops
 * within a quarter of a second and leaves nothing behind. `clock` gives milliseconds; `pause` lets others run.
 */
export async function runPlan({ db, now }: { db: Db; now: Date }, runId: string, clock: () => number, pause: () => Promise<void>): Promise<void> {
  const claimed = await db.planRun.updateMany({ where: { id: runId, status: 'queued' }, data: { status: 'running' } });
  if (claimed.count === 0) return;
  const run = await db.planRun.findUniqueOrThrow({ where: { id: runId } });
  const stop = new AbortController();
  const began = clock();
  let looked = began;
  let writing: Promise<unknown> = Promise.resolve();
  try {
    const { problem, names } = await weekProblem(db, toLocalDate(run.weekStart), now);
    const save = (p: ReturnType<typeof toProposal>) => db.planRun.updateMany({ where: { id: runId, status: 'running' }, data: { result: p as unknown as Prisma.InputJsonObject } });
    const plan = await proposeWeek(problem, {
      seed: SEED,
      timeLimitMs: TIME_LIMIT_MS,
      now: clock,
      signal: stop.signal,
      lp: await highsLp(),
      onImprovement: (found) => {
        writing = writing.then(() => save(toProposal(found, names, SEED, found.afterMs)));
      },
      pause: async () => {
        await pause();
        if (clock() - looked < LOOK_EVERY_MS) return;
        looked = clock();
        const still = await db.planRun.findUnique({ where: { id: runId }, select: { status: true } });
        if (still?.status !== 'running') stop.abort();
      },
    });
    await writing;
    await db.planRun.updateMany({
      where: { id: runId, status: 'running' },
      data: { status: 'done', finishedAt: now, result: toProposal(plan, names, SEED, clock() - began) as unknown as Prisma.InputJsonObject },
    });
  } catch (e) {
    await writing.catch(() => undefined);
    if (e instanceof PlanCancelled) {
      await db.planRun.updateMany({ where: { id: runId }, data: { status: 'cancelled', result: undefined, finishedAt: now } });
      return;
    }
    await db.planRun.updateMany({ where: { id: runId }, data: { status: 'failed', error: 'The week could not be planned. Book by hand, and tell whoever keeps the server.', finishedAt: now } });
    throw e;
  }
}
