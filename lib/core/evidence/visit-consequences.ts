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

/** Everything that follows from a closed visit, worked out at once and without touching anything. */
export function visitConsequences(kitchen: KitchenAfterVisit, fleet: FleetBelief, rules: ShopPolicy): VisitOutcome {
  const { visit, files, tasks } = kitchen;
  const outcome: VisitOutcome = { beliefs: [], decisions: [], foresights: [], cleanedBefore: [], met: [], again: [], goBack: [] };
  const alsoDue = [...(visit.alsoDue ?? [])];
  outcome.foresights = foresee(files, visit.on, fleet).filter((f) => visit.unitIds.has(f.unitId));
  // The kitchen's other units hear the news too.
  for (const belief of kitchenBeliefs(files, fleet)) {
    const { unitId, unit, conditions } = belief.file;
    if (!visit.unitIds.has(unitId)) {
      outcome.beliefs.push({ belief });
      continue;
    }
    const own = ownLimits(unit, belief.evidence.baseline, conditions, rules.ownLimits);
    outcome.beliefs.push({ belief, own });
    for (const task of tasks.filter((t) => t.unitId === unitId)) {
      const { kindKey, lastDoneOn, doneOn } = task;
      if (kindKey === COIL_CLEANING && lastDoneOn !== null && lastDoneOn < visit.on && !doneOn.includes(lastDoneOn))
        outcome.cleanedBefore.push({ unitId, on: lastDoneOn });
      const decision = decide(task, { ...visit, alsoDue }, belief, { rules, hyper: fleet.fouling, own });
      if (!decision) continue;
      outcome.decisions.push(decision);
      // What was done today comes due again on a day that the next one can share.
      if (decision.dueOn && visit.doneTaskIds.has(task.taskId)) alsoDue.push(decision.dueOn);
    }
    const { met, again, open } = returnsAfter(belief.file, visit, kitchen.returns.get(unitId) ?? [], kitchen.lookedAt.get(unitId), rules);
    outcome.met.push(...met);
    outcome.again.push(...again);
    outcome.goBack.push(...open.map((r) => ({ ...r, unitId })));
  }
  return outcome;
}
