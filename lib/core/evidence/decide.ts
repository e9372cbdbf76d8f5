import type { LocalDate, Weekday } from '../calendar';
import type { Hyper } from '../fouling';
import type { UnitBelief } from './beliefs';
import type { OwnLimits } from './own-limits';
import { dueNow, evidenceOfChange, heldWords, reviseTask, type TaskFile, type TaskRevision } from './revise-task';
import type { ShopPolicy } from '../intervals';

/** A task as it is on file when a visit's news comes in, with what other visits and changes did to it. */
export type TaskOnFile = Omit<TaskFile, 'lastDoneOn' | 'newsSince'> & {
  dueOn: LocalDate;
  lastDoneOn: LocalDate | null;
  /** Dates of other visits that did it, oldest first. */
  doneOn: readonly LocalDate[];
  /** What this very visit made of the rule when it was decided before. */
  mine: { fromRule: string; toRule: string } | null;
  /** Day of the newest change that another visit's evidence made. */
  lastChangeOn: LocalDate | null;
  /** What it was last said that the rule would have become, while it was held. */
  lastHeldRule: string | null;
};

/** `alsoDue`: days on which somebody is due in the kitchen anyway. */
export type VisitNews = {
  on: LocalDate;
  doneTaskIds: ReadonlySet<string>;
  preferredWeekday: Weekday | null;
  alsoDue?: readonly LocalDate[];
};

/** What decides: the shop's rules, what the fleet taught of coils, and the unit's own limits. */
export type DecisionPolicy = { rules: ShopPolicy; hyper: Hyper; own: OwnLimits | null };

export type ChangeRecord = {
  kind: 'evidence' | 'held' | 'ended';
  fromRule: string;
  toRule: string;
  fromDueOn: LocalDate;
  toDueOn: LocalDate | null;
  reason: string;
  evidence: Record<string, unknown>;
  modelVersion: string;
};

/** What a visit means for one task. `dueOn` null: the rule has ended. */
export type Decision = {
  taskId: string;
  unitId: string;
  kindKey: string;
  fromRule: string;
  rule: string;
  fromDueOn: LocalDate;
  dueOn: LocalDate | null;
  lastDoneOn: LocalDate;
  /** The file already says all of this. */
  settled: boolean;
  /** The change to be kept with its reason; null when nothing changes or it was kept before. */
  record: ChangeRecord | null;
  /** What a lock or a contract's dates held back, when that is news. */
  held: ChangeRecord | null;
  /** For the screen that closes the visit; false for work not done there whose rule stays. */
  shown: boolean;
  reason: string | null;
  heldReason: string | null;
  /** Said when cleaning no longer brings a coil back. */
  deepClean: string | null;
};

export const ENDED = 'The rule has ended: its last date is done, so nothing more comes due. Add the task again to give it a new rule.';

const newest = (dates: readonly (LocalDate | null)[]): LocalDate | null =>
  dates.reduce((a, d) => (d !== null && (a === null || d > a) ? d : a), null);

/**
 * What a visit's own changes of one rule made of it in the end, newest first: one decided three times, each time otherwise, still began with the
 * rule that stood before it. A change by hand in between begins anew.
 */
export function madeByVisit(changes: readonly { fromRule: string; toRule: string }[]): TaskOnFile['mine'] {
  const [last, ...earlier] = changes;
  if (!last) return null;
  let { fromRule } = last;
  for (const c of earlier) {
    if (c.toRule !== fromRule) break;
    fromRule = c.fromRule;
  }
  return { fromRule, toRule: last.toRule };
}

/** The task with this visit taken in, as the revision reads it; null when it was never done. */
function withVisit(task: TaskOnFile, visit: VisitNews): TaskFile | null {
  const doneHere = visit.doneTaskIds.has(task.taskId);
  const lastDoneOn = newest([...task.doneOn, doneHere ? visit.on : null, task.lastDoneOn]);
  if (!lastDoneOn) return null;
  const before = (d: LocalDate | null) => (d !== null && d < visit.on ? d : null);
  const { taskId, unitId, kindKey, anchor, anchorDate, locked, minWeeks, maxWeeks, mine } = task;
  return {
    taskId, unitId, kindKey, anchor, anchorDate, locked, minWeeks, maxWeeks, lastDoneOn,
    // Starting again from the rule before this visit makes a second run give the same answer.
    rule: mine && mine.toRule === task.rule ? mine.fromRule : task.rule,
    newsSince: newest([newest(task.doneOn.map(before)), before(task.lastChangeOn)]),
  }; // prettier-ignore
}

function ended(task: TaskOnFile, lastDoneOn: LocalDate): Decision {
  const { taskId, unitId, kindKey, rule, dueOn } = task;
  return {
    taskId, unitId, kindKey, fromRule: rule, rule, fromDueOn: dueOn, dueOn: null, lastDoneOn,
    settled: false, held: null, shown: true, reason: ENDED, heldReason: null, deepClean: null,
    record: { kind: 'ended', fromRule: rule, toRule: rule, fromDueOn: dueOn, toDueOn: null, reason: ENDED, evidence: {}, modelVersion: '' },
  }; // prettier-ignore
}

/** Said once for each rule that it would have become, so that the owner can see what a lock or a contract holds back. */
function heldRecord(task: TaskOnFile, revision: TaskRevision | null, on: LocalDate, rule: string, dueOn: LocalDate): ChangeRecord | null {
  const would = revision?.wouldHave;
  if (!revision || !would || would.rule === task.lastHeldRule) return null;
  return {
    kind: 'held', fromRule: rule, toRule: rule, fromDueOn: dueOn, toDueOn: dueOn, reason: heldWords(would.reason, task.locked),
    evidence: { ...evidenceOfChange(revision, on), wouldHave: would.rule, wouldHaveDueOn: would.dueOn }, modelVersion: revision.modelVersion,
  }; // prettier-ignore
}

/**
 * Whether a revision takes hold. Work not done today keeps its rule unless something severe was seen on the way; a rule
 * that has ended (`next` null) is nobody's to stretch or tighten, unless this visit gave it a new one already.
 */
function takesHold(
  revision: TaskRevision | null,
  doneHere: boolean,
  next: LocalDate | null,
  mine: TaskOnFile['mine'],
): TaskRevision | null {
  if (revision?.changed !== true) return null;
  return (doneHere || revision.severe) && (next !== null || mine !== null) ? revision : null;
}

const saysSo = (task: TaskOnFile, now: Pick<TaskOnFile, 'rule' | 'dueOn' | 'lastDoneOn'>): boolean =>
  now.rule === task.rule && now.dueOn === task.dueOn && now.lastDoneOn === task.lastDoneOn;

function changeRecord(task: TaskOnFile, taken: TaskRevision, on: LocalDate): ChangeRecord | null {
  if (!taken.reason || task.mine?.toRule === taken.rule) return null;
  return {
    kind: 'evidence', fromRule: task.rule, toRule: taken.rule, fromDueOn: task.dueOn, toDueOn: taken.dueOn, reason: taken.reason,
    evidence: evidenceOfChange(taken, on), modelVersion: taken.modelVersion,
  }; // prettier-ignore
}

/**
 * What becomes of one task after a visit: its rule, its next date, and what is to be kept of it. Pure, and the only
 * place where that is decided: services save it, the demo shop and the replay of the past go through it. Deciding the
 * same visit again gives the same rule and nothing new to keep. Null for a task that was never done.
 */
export function decide(task: TaskOnFile, visit: VisitNews, belief: UnitBelief, policy: DecisionPolicy): Decision | null {
  const file = withVisit(task, visit);
  if (!file) return null;
  const doneHere = visit.doneTaskIds.has(task.taskId);
  const revision = reviseTask(file, belief, policy.own, policy.rules, policy.hyper, visit.preferredWeekday, visit.alsoDue);
  const next = dueNow(file);
  const taken = takesHold(revision, doneHere, next, task.mine);
  const { rule, dueOn } = taken ?? { rule: file.rule, dueOn: next };
  if (dueOn === null) return ended(task, file.lastDoneOn);
  const shown = doneHere || taken !== null;
  return {
    taskId: task.taskId, unitId: task.unitId, kindKey: task.kindKey, fromRule: file.rule, rule, fromDueOn: task.dueOn, dueOn,
    lastDoneOn: file.lastDoneOn, settled: saysSo(task, { rule, dueOn, lastDoneOn: file.lastDoneOn }),
    record: taken && changeRecord(task, taken, visit.on), held: shown ? heldRecord(task, revision, visit.on, file.rule, dueOn) : null, shown,
    reason: taken?.reason ?? null, heldReason: revision?.wouldHave?.reason ?? null, deepClean: revision?.deepClean ?? null,
  }; // prettier-ignore
}
