import 'server-only';
import type { ServiceContext } from '../context';

/** What a closed visit changed, for the screen that closes it. */
export type RuleRevision = {
  taskId: string;
  unitId: string;
  kindKey: string;
  fromRule: string;
  toRule: string;
  fromDueOn: string | null;
  toDueOn: string;
  /** One sentence from the numbers; null where nothing was changed but the date. */
  reason: string | null;
  /** Locked, or on the calendar's dates: what the tool would have done instead. */
  held: string | null;
};
export type VisitConsequences = { revisions: RuleRevision[]; followUpIds: string[] };

/**
 * After a visit is closed: re-anchors each done task, updates its unit's fouling posterior, revises the rules with
 * their reasons, and opens the follow-ups that the guard rails ask for. Doing it twice changes nothing more.
 * @throws AppError not_found
 */
export async function reviseRulesAfterVisit(_ctx: ServiceContext, _visitId: string): Promise<VisitConsequences> {
  throw new Error('not joined to the core yet');
}
