import type { LocalDate } from '../calendar';
import { COIL_CLEANING } from '../tasks';
import { kitchenBeliefs, type FleetBelief, type UnitBelief } from './beliefs';
import { foresee, type Foresight } from './foresee';
import { decide, type Decision, type TaskOnFile, type VisitNews } from './decide';
import { ownLimits, type OwnLimits } from './own-limits';
import { returnsAfter, type FoundAgain, type ReturnOnFile, type ReturnVisit } from './return-visits';
import type { ShopPolicy } from '../intervals';
import type { UnitFile } from './unit-file';

/** A kitchen as one visit leaves it: everything that is needed to work out what follows, loaded once. */
export type KitchenAfterVisit = {
  files: readonly UnitFile[];
  tasks: readonly TaskOnFile[];
  visit: VisitNews & { id: string; unitIds: ReadonlySet<string> };
  /** Jobs on file by unit that a look can settle, and the aspects this visit looked at. */
  returns: ReadonlyMap<string, readonly ReturnOnFile[]>;
  lookedAt: ReadonlyMap<string, ReadonlySet<string>>;
};

export type VisitOutcome = {
  /** `own` undefined: the unit was not visited, its limits stay as they are on file. */
  beliefs: { belief: UnitBelief; own?: OwnLimits | null }[];
  decisions: Decision[];
  /** What was expected of the coils that were looked at, from what was known before. */
  foresights: Foresight[];
  /** Cleanings from before our first visit that a task is about to forget. */
  cleanedBefore: { unitId: string; on: LocalDate }[];
  /** Jobs that this visit found right, those it found again, and the new ones it asks for. */
  met: string[];
  again: FoundAgain[];
  goBack: (ReturnVisit & { unitId: string })[];
};

const by =
  <T>(key: (x: T) => string) =>
  (a: T, b: T) =>
    key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0;

type Known = { belief: UnitBelief; own: OwnLimits | null };

/**
 * What becomes of the visited units' tasks, by task. Each date may ride along with those given before it, so they are given in an order
 * of their own: the answer does not hang on how the caller's lists are sorted.
 */
function decisionsOf({ visit, tasks }: KitchenAfterVisit, units: readonly Known[], fleet: FleetBelief, rules: ShopPolicy) {
  const alsoDue = [...(visit.alsoDue ?? [])];
  const decisions = new Map<string, Decision>();
  for (const { belief, own } of [...units].sort(by((u) => u.belief.file.unitId))) {
    const its = tasks.filter((t) => t.unitId === belief.file.unitId);
    for (const task of its.sort(by((t) => `${t.kindKey} ${t.taskId}`))) {
      const decision = decide(task, { ...visit, alsoDue }, belief, { rules, hyper: fleet.fouling, own });
      if (!decision) continue;
      decisions.set(task.taskId, decision);
      // What was done today comes due again on a day that the next one can share.
      if (decision.dueOn && visit.doneTaskIds.has(task.taskId)) alsoDue.push(decision.dueOn);
    }
  }
  return decisions;
}

/** Everything that follows from a closed visit, worked out at once and without touching anything. */
export function visitConsequences(kitchen: KitchenAfterVisit, fleet: FleetBelief, rules: ShopPolicy): VisitOutcome {
  const { visit, files, tasks } = kitchen;
  const outcome: VisitOutcome = { beliefs: [], decisions: [], foresights: [], cleanedBefore: [], met: [], again: [], goBack: [] };
  outcome.foresights = foresee(files, visit.on, fleet).filter((f) => visit.unitIds.has(f.unitId));
  // The kitchen's other units hear the news too.
  const beliefs = kitchenBeliefs(files, fleet);
  const visited = beliefs
    .filter((b) => visit.unitIds.has(b.file.unitId))
    .map((belief): Known => {
      const { unit, conditions } = belief.file;
      return { belief, own: ownLimits(unit, belief.evidence.baseline, conditions, rules.ownLimits) };
    });
  const decisions = decisionsOf(kitchen, visited, fleet, rules);
  const ownOf = new Map(visited.map(({ belief, own }) => [belief.file.unitId, own]));
  for (const belief of beliefs) {
    const { unitId } = belief.file;
    const own = ownOf.get(unitId);
    outcome.beliefs.push(own === undefined ? { belief } : { belief, own });
    if (own === undefined) continue;
    for (const task of tasks.filter((t) => t.unitId === unitId)) {
      const { kindKey, lastDoneOn, doneOn } = task;
      if (kindKey === COIL_CLEANING && lastDoneOn !== null && lastDoneOn < visit.on && !doneOn.includes(lastDoneOn))
        outcome.cleanedBefore.push({ unitId, on: lastDoneOn });
      const decision = decisions.get(task.taskId);
      if (decision) outcome.decisions.push(decision);
    }
    const { met, again, open } = returnsAfter(belief.file, visit, kitchen.returns.get(unitId) ?? [], kitchen.lookedAt.get(unitId), rules);
    outcome.met.push(...met);
    outcome.again.push(...again);
    outcome.goBack.push(...open.map((r) => ({ ...r, unitId })));
  }
  return outcome;
}
