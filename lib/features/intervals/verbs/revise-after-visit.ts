import 'server-only';
import { estimateVisit, visitConsequences, type Decision } from '../../../core/evidence';
import { isWeekday, type LocalDate } from '../../../core/calendar';
import { AppError } from '../../../core/errors';
import { unitFiles } from '../../evidence/reads/findings-history';
import { fleetBelief, policyOnFile } from '../../evidence/reads/fouling';
import { returnsOfUnits } from '../../jobs/reads/returns';
import { dueElsewhere, tasksToRevise, visitToRevise } from '../reads/rule-changes';
import { withinTransaction } from '../../../database/transaction';
import { askChange } from './ask-change';
import { saveConsequences, saveEstimates } from './save-consequences';
import type { ServiceContext } from '../../context';

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
export type VisitConsequences = { revisions: RuleRevision[]; jobIds: string[] };

/**
 * After a visit is closed: estimates its readings anew, re-anchors each done task, updates the beliefs about the
 * kitchen's units, revises the rules with their reasons, and settles and opens return visits. The kitchen is loaded
 * once, everything is worked out in the core, and saved in one go. Doing it twice changes nothing more.
 * @throws AppError not_found
 */
export async function reviseRulesAfterVisit({ db, actor, now }: ServiceContext, visitId: string): Promise<VisitConsequences> {
  return withinTransaction(db, async (tx) => {
    const visit = await visitToRevise(tx, visitId);
    if (!visit) throw new AppError('not_found', 'That visit is not on file.');
    const { kitchen, unitIds } = visit;
    const more = { withVisit: visitId, withoutReadings: visitId, evenArchived: [...unitIds] };
    const onFile = await unitFiles(tx, { kitchenId: visit.kitchenId }, more);
    const tasks = await tasksToRevise(tx, [...unitIds], visitId, kitchen.timeZone);
    const returns = await returnsOfUnits(tx, [...unitIds], kitchen.timeZone);
    const { files, estimates } = estimateVisit(onFile, visit.readings, visit.on);
    const alsoDue = await dueElsewhere(tx, visit.kitchenId, [...unitIds], visit.on);
    const news = { ...visit, preferredWeekday: isWeekday(kitchen.preferredWeekday) ? kitchen.preferredWeekday : null, alsoDue };
    const outcome = visitConsequences(
      { files, tasks, visit: news, returns, lookedAt: visit.lookedAt },
      await fleetBelief(tx),
      await policyOnFile(tx),
    );
    await saveEstimates(tx, estimates);
    const jobIds = await saveConsequences(tx, outcome, { visit, by: actor?.userId ?? null, now });
    await askChange(tx, visit.kitchenId, visit.on, now);
    return { revisions: outcome.decisions.filter((d) => d.shown).map(asRevision), jobIds };
  });
}

const asRevision = (d: Decision): RuleRevision => ({
  taskId: d.taskId,
  unitId: d.unitId,
  kindKey: d.kindKey,
  fromRule: d.fromRule,
  toRule: d.rule,
  fromDueOn: d.fromDueOn,
  toDueOn: d.dueOn,
  reason: d.reason,
  held: d.heldReason,
});
