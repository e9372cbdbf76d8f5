import 'server-only';
import { todayIn } from '../../../core/calendar';
import type { FleetBelief } from '../../../core/evidence';
import { shopTimeZone } from '../../shop/reads/shop';
import type { Db } from '../../../database/client';
import { beatRefit, claimRefit, leaveRefit, type RefitClaim } from './refit-claim';
import { saveFleetBelief } from '../../evidence/verbs/save-belief';
import { refitStep, type RefitStep, type RefitStepDone } from './refit-step';

/** Kitchens brought up in one step: a fleet need not fit in memory. */
const KITCHENS_AT_ONCE = 20;
/** Units that a fit looks at, whole kitchens at a time, evenly over the fleet. */
const FITTED_UNITS = 400;
/** The longer one first. */
const HALVES = ['fouling', 'failures'] as const;
const BEAT_EVERY_MS = 5_000;

/** Where steps are done: here one after the other, or on threads, so many at once. */
export type RefitCrew = { run: (step: RefitStep) => Promise<RefitStepDone>; atOnce: number };

/**
 * Fits the pooled prior to the fleet's history and brings every unit's posterior, limits and energy up to it; rules change only at
 * visits. How far it has come is kept, so that it goes on where a process was stopped; a step done twice changes nothing more.
 * @returns null while another process is at it
 */
export async function refitFleet(
  { db, now }: { db: Db; now: Date },
  crew: RefitCrew = { run: (step) => refitStep(db, step), atOnce: 1 },
): Promise<{ units: number } | null> {
  const run = await claimRefit(db, now);
  if (!run) return null;
  const beating = setInterval(() => void beatRefit(db, run).catch(() => undefined), BEAT_EVERY_MS);
  try {
    const priorId = run.priorId ?? (await fitted(db, run, now, crew));
    return { units: await broughtUp(db, run, priorId, now, crew) };
  } catch (e) {
    await leaveRefit(db, run).catch(() => undefined);
    throw e;
  } finally {
    clearInterval(beating);
  }
}

const kitchensAfter = async (db: Db, after: string | null): Promise<string[]> =>
  (
    await db.kitchen.findMany({
      where: { archivedAt: null, ...(after ? { id: { gt: after } } : {}) },
      select: { id: true },
      orderBy: { id: 'asc' },
    })
  ).map((k) => k.id);

async function fitted(db: Db, run: RefitClaim, now: Date, crew: RefitCrew): Promise<string> {
  const kitchens = await kitchensAfter(db, null);
  const stride = Math.max(1, Math.ceil((await db.unit.count({ where: { archivedAt: null } })) / FITTED_UNITS));
  const of = {
    kitchenIds: kitchens.filter((_, i) => i % stride === 0),
    label: todayIn(await shopTimeZone(db), now.getTime()),
  };
  // The two know nothing of one another: where there are two threads, each takes one.
  let belief: Partial<FleetBelief> = {};
  await inLanes(crew, HALVES.length, async (i) => {
    const { learned } = await crew.run({ what: 'fit', of: HALVES[i] ?? 'fouling', ...of });
    belief = { ...belief, ...learned };
  });
  const { fouling, failures } = belief;
  if (!fouling || !failures) throw new Error('half of what the fleet teaches was not learned');
  const { id: priorId } = await saveFleetBelief(db, { fouling, failures }, now);
  await beatRefit(db, run, { priorId });
  return priorId;
}

/** Some at once, the next as soon as one is done. @param step says whether to go on */
async function inLanes({ atOnce }: RefitCrew, steps: number, step: (i: number) => Promise<unknown>): Promise<void> {
  let next = 0;
  const lane = async () => {
    for (let i = next++; i < steps; i = next++) if ((await step(i)) === false) return;
  };
  await Promise.all(Array.from({ length: atOnce }, lane));
}

/** Steps of kitchens in their order, some at once; what is kept is how far all before are done. */
async function broughtUp(db: Db, run: RefitClaim, priorId: string, now: Date, crew: RefitCrew): Promise<number> {
  const kitchens = await kitchensAfter(db, run.afterKitchenId);
  const steps = Array.from({ length: Math.ceil(kitchens.length / KITCHENS_AT_ONCE) }, (_, i) =>
    kitchens.slice(i * KITCHENS_AT_ONCE, (i + 1) * KITCHENS_AT_ONCE),
  );
  const done: (number | undefined)[] = [];
  let [kept, units, mine] = [0, run.units, true];
  const keep = async () => {
    let more = 0;
    while (kept < steps.length && done[kept] !== undefined) more += done[kept++] ?? 0;
    units += more;
    const afterKitchenId = steps[kept - 1]?.at(-1);
    if (afterKitchenId) mine &&= await beatRefit(db, run, { afterKitchenId, units: more });
  };
  await inLanes(crew, steps.length, async (i) => {
    done[i] = (await crew.run({ what: 'bring_up', kitchenIds: steps[i] ?? [], priorId })).units;
    await keep();
    return mine;
  });
  if (mine) await beatRefit(db, run, { finishedAt: now });
  return units;
}
