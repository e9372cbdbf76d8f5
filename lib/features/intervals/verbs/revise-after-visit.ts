import 'server-only';
import { AppError } from '../../../core/errors';
import {
  dueNow,
  evidenceOfChange,
  heldWords,
  kitchenBeliefs,
  ownLimits,
  reviseTask,
  type FleetBelief,
  type ShopRules,
  type UnitBelief,
} from '../../../core/evidence';
import type { LocalDate, Weekday } from '../../../core/calendar';
import { COIL_CLEANING } from '../../../core/tablet';
import { unitFiles } from '../../evidence/reads/findings-history';
import { fleetBelief, saveBelief, shopRules } from '../../evidence/reads/fouling';
import { saveChange, saveTaskRule, tasksToRevise, visitToRevise, type TaskToRevise } from '../reads/rule-changes';
import { withinTransaction } from '../../../database/transaction';
import type { Tx } from '../../../database/client';
import type { ServiceContext } from '../../context';
import { ENDED, endTask } from '../../tasks/verbs/end-task';
import { keepCleaningBefore } from './keep-cleaning-before';
import { openReturnVisits } from '../../follow-ups/verbs/return-visits';

/** What a closed visit changed, for the screen that closes it. */
export type RuleRevision = {
  taskId: string;
  unitId: string;
  kindKey: string;
  fromRule: string;
  toRule: string;
  fromDueOn: LocalDate;
  /** Null where the rule has ended. */
  toDueOn: LocalDate | null;
  /** One sentence from the numbers; null where nothing was changed but the date. */
  reason: string | null;
  /** Locked, or on the calendar's dates: what the tool would have done instead. */
  held: string | null;
};
export type VisitConsequences = { revisions: RuleRevision[]; followUpIds: string[] };

type Visit = NonNullable<Awaited<ReturnType<typeof visitToRevise>>>;

/**
 * After a visit is closed: re-anchors each done task, updates its unit's fouling posterior, revises the rules with
 * their reasons, and settles and opens the return visits of the guard rails. Doing it twice changes nothing more.
 * @throws AppError not_found
 */
export async function reviseRulesAfterVisit({ db, actor, now }: ServiceContext, visitId: string): Promise<VisitConsequences> {
  return withinTransaction(db, async (tx) => {
    const visit = await visitToRevise(tx, visitId);
    if (!visit) throw new AppError('not_found', 'That visit is not on file.');
    const rules = await shopRules(tx);
    const fleet = await fleetBelief(tx);
    const beliefs = kitchenBeliefs(await unitFiles(tx, { kitchenId: visit.kitchenId }, visitId), fleet);
    const touched = beliefs.filter((b) => visit.unitIds.has(b.file.unitId));
    const tasks = await tasksToRevise(
      tx,
      touched.map((b) => b.file.unitId),
      visitId,
      visit.kitchen.timeZone,
    );
    await keepCleaningsBefore(tx, tasks, visit);
    const revisions: RuleRevision[] = [];
    const followUpIds: string[] = [];
    // The kitchen's other units hear the news too.
    for (const belief of beliefs) if (!touched.includes(belief)) await saveBelief(tx, belief);
    for (const belief of touched) {
      const own = ownLimits(belief.file.unit, belief.evidence.baseline, belief.file.conditions, rules.ownLimits);
      await saveBelief(tx, belief, own);
      for (const task of tasks.filter((t) => t.row.unitId === belief.file.unitId)) {
        const done = await reviseOne(tx, { visit, task, belief, own, rules, fleet, by: actor?.userId ?? null, now });
        if (done) revisions.push(done);
      }
      followUpIds.push(
        ...(await openReturnVisits(tx, {
          belief,
          visitId,
          on: visit.on,
          timeZone: visit.kitchen.timeZone,
          withinDays: rules.returnWithinDays,
          by: actor?.userId ?? null,
          now,
        })),
      );
    }
    return { revisions, followUpIds };
  });
}

async function keepCleaningsBefore(tx: Tx, tasks: readonly TaskToRevise[], visit: Visit): Promise<void> {
  for (const { row, lastDoneOn, doneOn } of tasks)
    if (row.kindKey === COIL_CLEANING && lastDoneOn !== null && lastDoneOn < visit.on && !doneOn.includes(lastDoneOn))
      await keepCleaningBefore(tx, row.unitId, lastDoneOn, visit.kitchen.timeZone);
}

type One = {
  visit: Visit;
  task: TaskToRevise;
  belief: UnitBelief;
  own: ReturnType<typeof ownLimits>;
  rules: ShopRules;
  fleet: FleetBelief;
  by: string | null;
  now: Date;
};

async function reviseOne(tx: Tx, { visit, task, belief, own, rules, fleet, by, now }: One): Promise<RuleRevision | null> {
  const { row, mine } = task;
  const doneHere = visit.doneTaskIds.has(row.id);
  const dates = [...task.doneOn, ...(doneHere ? [visit.on] : []), ...(task.lastDoneOn ? [task.lastDoneOn] : [])].sort();
  const lastDoneOn = dates.at(-1);
  if (!lastDoneOn) return null;
  const previous = task.doneOn.filter((d) => d < visit.on).at(-1) ?? null;
  const newsSince =
    [previous, task.lastChangeOn]
      .filter((d): d is LocalDate => d !== null && d < visit.on)
      .sort()
      .at(-1) ?? null;
  // Starting again from the rule before this visit makes a second run give the same answer.
  const rule = mine && mine.toRule === row.rule ? mine.fromRule : row.rule;
  const file = {
    taskId: row.id, unitId: row.unitId, kindKey: row.kindKey, rule, anchor: row.anchor, anchorDate: task.anchorDate, lastDoneOn,
    locked: row.locked, minWeeks: row.minWeeks, maxWeeks: row.maxWeeks, newsSince,
  }; // prettier-ignore
  const revision = reviseTask(file, belief, own, rules, fleet.fouling, visit.kitchen.preferredWeekday as Weekday | null);
  // Work not done today keeps its rule unless something severe was seen on the way.
  const next = dueNow(file);
  // A rule that has ended is nobody's to stretch or tighten, unless this visit gave it a new one already.
  const takes = revision !== null && revision.changed && (doneHere || revision.guard === 'halved') && (next !== null || mine !== null);
  const toRule = takes ? revision.rule : rule;
  const toDueOn = takes ? revision.dueOn : next;
  if (toDueOn === null) {
    await endTask(tx, { id: row.id, rule: row.rule, dueOn: task.dueOn, lastDoneOn }, { visitId: visit.id, by, now });
    const was = { taskId: row.id, unitId: row.unitId, kindKey: row.kindKey, fromDueOn: task.dueOn };
    return { ...was, fromRule: row.rule, toRule: row.rule, toDueOn: null, reason: ENDED, held: null };
  }
  const settled = toRule === row.rule && toDueOn === task.dueOn && lastDoneOn === task.lastDoneOn;
  if (!settled) await saveTaskRule(tx, { taskId: row.id, rule: toRule, dueOn: toDueOn, lastDoneOn });
  if (takes && revision.reason && !(mine && mine.toRule === toRule))
    await saveChange(tx, {
      taskId: row.id, at: now, kind: 'evidence', fromRule: row.rule, toRule, fromDueOn: task.dueOn, toDueOn, reason: revision.reason,
      evidence: evidenceOfChange(revision, visit.on), modelVersion: revision.modelVersion, byUserId: by, visitId: visit.id,
    }); // prettier-ignore
  if (!doneHere && !takes) return null;
  const held = revision?.wouldHave ?? null;
  // Said once for each rule that it would have become, so that the owner can see what a lock or a contract holds back.
  if (revision && held && held.rule !== task.lastHeldRule)
    await saveChange(tx, {
      taskId: row.id, at: now, kind: 'held', fromRule: rule, toRule: rule, fromDueOn: toDueOn, toDueOn, reason: heldWords(held.reason, row.locked),
      evidence: { ...evidenceOfChange(revision, visit.on), wouldHave: held.rule, wouldHaveDueOn: held.dueOn }, modelVersion: revision.modelVersion, byUserId: by, visitId: visit.id,
    }); // prettier-ignore
  return {
    taskId: row.id,
    unitId: row.unitId,
    kindKey: row.kindKey,
    fromRule: rule,
    toRule,
    fromDueOn: task.dueOn,
    toDueOn,
    reason: takes ? revision.reason : null,
    held: held?.reason ?? null,
  };
}
