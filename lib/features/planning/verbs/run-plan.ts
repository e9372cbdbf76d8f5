import 'server-only';
import { toLocalDate } from '../../../core/calendar/date-column';
import { checkInput, PlanCancelled, type CostBreakdown } from '../../../core/planning';
import type { Db } from '../../../database/client';
import { Prisma } from '../../../database/generated/client';
import { STORED_PROPOSAL } from '../../../database/stored/planning';
import { beat, claimRun } from './plan-claim';
import { weekProblem } from '../reads/week-problem';
import type { Search } from './search';
import { toProposal, type GivenInput } from './to-proposal';

const TIME_LIMIT_MS = 8_000;
const LOOK_EVERY_MS = 250;
const SEED = 20261125;
const NO_COST: CostBreakdown = {
  total: 0, driving: 0, drivingMinutes: 0, visits: 0, overtime: 0, overtimeMinutes: 0, lateness: 0, latenessMinutes: 0, early: 0, overdue: 0, left: 0,
}; // prettier-ignore

/**
 * Searches for the week of a queued run, writing each better plan as it is found. A run cancelled meanwhile stops
 * within half a second and leaves nothing behind. Everything is written under the claim of this try: a process that was
 * taken for dead and wakes again changes nothing. `clock` gives milliseconds.
 */
export async function runPlan({ db, now }: { db: Db; now: Date }, runId: string, search: Search, clock: () => number): Promise<void> {
  const claim = await claimRun(db, runId);
  if (!claim) return;
  const run = await db.planRun.findUniqueOrThrow({ where: { id: runId } });
  const stop = new AbortController();
  const began = clock();
  let writing: Promise<unknown> = Promise.resolve();
  const look = setInterval(() => {
    void beat(db, runId, claim).then(
      (wanted) => wanted || stop.abort(),
      () => undefined,
    );
  }, LOOK_EVERY_MS);
  try {
    const { problem, names, input } = await weekProblem(db, toLocalDate(run.weekStart), now);
    const facts = await input();
    const findings = checkInput(facts);
    const given: GivenInput = {
      findings,
      due: { tasks: facts.due.tasks, kitchens: facts.due.kitchens, searched: facts.tasks.length },
      problem,
    };
    const save = (p: ReturnType<typeof toProposal>) =>
      db.planRun.updateMany({ where: { id: runId, claim, status: 'running' }, data: { result: STORED_PROPOSAL.write(p) } });
    // A week that cannot hold anything new is not searched: what stands stays.
    if (findings.some((f) => f.weight === 'stops')) {
      const nothing = toProposal({ visits: [], cost: NO_COST }, names, given, SEED, clock() - began);
      await db.planRun.updateMany({
        where: { id: runId, claim, status: 'running' },
        data: { status: 'done', finishedAt: now, result: STORED_PROPOSAL.write(nothing) },
      });
      return;
    }
    const plan = await search(problem, {
      seed: SEED,
      timeLimitMs: TIME_LIMIT_MS,
      signal: stop.signal,
      onImprovement: (found) => {
        writing = writing.then(() => save(toProposal(found, names, given, SEED, found.afterMs)));
      },
    });
    await writing;
    await db.planRun.updateMany({
      where: { id: runId, claim, status: 'running' },
      data: {
        status: 'done',
        finishedAt: now,
        result: STORED_PROPOSAL.write(toProposal(plan, names, given, SEED, clock() - began)),
      },
    });
  } catch (e) {
    await writing.catch(() => undefined);
    if (e instanceof PlanCancelled) {
      await db.planRun.updateMany({ where: { id: runId, claim }, data: { status: 'cancelled', result: Prisma.DbNull, finishedAt: now } });
      return;
    }
    await db.planRun.updateMany({
      where: { id: runId, claim },
      data: { status: 'failed', error: 'The week could not be planned. Book by hand, and tell whoever keeps the server.', finishedAt: now },
    });
    throw e;
  } finally {
    clearInterval(look);
  }
}
