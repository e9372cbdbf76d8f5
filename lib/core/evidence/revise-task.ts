import { nextDue, type Anchor, type LocalDate, type Weekday } from '../calendar';
import {
  reviseCoilRule,
  reviseInspectionRule,
  type Bounds,
  type CoilEvidence,
  type InspectionEvidence,
  type Revision,
  type ShopPolicy,
  type UnitPolicy,
} from '../intervals';
import { COIL_CLEANING, learningTask, looksAt } from '../tasks';
import type { UnitBelief } from './beliefs';
import { extraKwh, type OwnLimits } from './own-limits';
import type { Hyper } from '../fouling';

/** A task as it stands after the visit was written down: `lastDoneOn` is already the visit's date when it was done there. */
export type TaskFile = {
  taskId: string;
  unitId: string;
  kindKey: string;
  rule: string;
  anchor: Anchor;
  anchorDate: LocalDate;
  lastDoneOn: LocalDate;
  locked: boolean;
  minWeeks: number;
  maxWeeks: number;
  /** The later of its last done date before this visit and its last change by evidence: only newer evidence is news. */
  newsSince: LocalDate | null;
};

export type TaskRevision = Revision<CoilEvidence | InspectionEvidence> & { deepClean?: string; stays?: string };

/** The next due date under a task's present rule; null where the rule has ended. */
export function dueNow(task: Pick<TaskFile, 'rule' | 'anchor' | 'anchorDate' | 'lastDoneOn'>): LocalDate | null {
  return nextDue(task);
}

/** Money enters by the kitchen's own price and the machine's own energy, where both are known. */
export function settingsFor(rules: ShopPolicy, own: OwnLimits | null, pricePerKwh: number | null): UnitPolicy {
  const priced = own !== null && own.kwhPerDay.length > 0 && pricePerKwh !== null;
  return {
    ...rules,
    energyCostPerDayPerLnK: priced ? (deposit: number) => extraKwh(own, deposit) * pricePerKwh : rules.energyCostPerDayPerLnK,
  };
}

/** The rule after a visit, or null for a kind of task that no evidence speaks of: its rule stays as it is. */
export function reviseTask(
  task: TaskFile,
  belief: UnitBelief,
  own: OwnLimits | null,
  rules: ShopPolicy,
  hyper: Hyper,
  preferredWeekday: Weekday | null,
  alsoDue: readonly LocalDate[] = [],
): TaskRevision | null {
  const kind = learningTask(task.kindKey);
  if (!kind) return null;
  const bounds: Bounds = {
    minWeeks: Math.max(task.minWeeks, rules.minWeeks),
    ...(task.maxWeeks < rules.maxWeeks[kind] ? { maxWeeks: task.maxWeeks } : {}),
  };
  const { priceKnown, energyPricePerKwh, currency } = belief.file.conditions;
  const price = priceKnown ? energyPricePerKwh : null;
  const frame = {
    currentRule: task.rule, anchor: task.anchor, anchorDate: task.anchorDate, lastDoneOn: task.lastDoneOn, preferredWeekday,
    settings: settingsFor(rules, own, price), bounds, locked: task.locked, lastRevisedOn: task.newsSince,
  }; // prettier-ignore
  if (kind === COIL_CLEANING) {
    const limits = own && own.limits.length > 0 ? own.limits : rules.limits;
    const failureLimit = own?.failureLimit ?? rules.failureLimit;
    return reviseCoilRule({
      ...frame,
      currency,
      history: belief.evidence.history,
      posterior: belief.fouling,
      hyper,
      limits,
      failureLimit,
      alsoDue,
    });
  }
  return reviseInspectionRule({
    ...frame,
    task: kind,
    looks: belief.evidence.looks,
    ...(looksAt(kind) === 'ice' ? { broken: belief.evidence.broken } : {}),
    posterior: belief.failures[looksAt(kind)],
  });
}

/** What is said of a change that a lock or a contract's dates held back. */
export const heldWords = (reason: string, locked: boolean): string =>
  `${locked ? 'Locked' : 'On the contract’s dates'}, so nothing moved. Without that: ${reason.charAt(0).toLowerCase()}${reason.slice(1)}`;

/** What is kept beside a change's sentence, so that it can be checked later. */
export const evidenceOfChange = (r: TaskRevision, on: LocalDate) => ({
  on,
  guard: r.guard,
  fromWeeks: r.fromWeeks,
  weeks: r.weeks,
  ...r.evidence,
});
