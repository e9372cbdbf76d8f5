import type { LocalDate } from '../calendar';
import { currentWeeks, dateUnder, dueUnder, railed, ruleFor, type Guard, type Move, type Situation, type Timing } from './guards';
import type { Bounds, IntervalTask, UnitPolicy } from './policy';

/** The rule after a visit. When nothing changes, `rule` is the one that was there and `reason` is null. */
export type Revision<E> = {
  rule: string;
  dueOn: LocalDate;
  changed: boolean;
  /** Whole weeks of the rule now and, when changed, before. */
  weeks: number;
  fromWeeks: number;
  /** One sentence for the cook and the owner; null when nothing changes and nothing is worth saying. */
  reason: string | null;
  /** The rail that decided, if one did. */
  guard: Guard | null;
  /** Something was met that does not wait for the next date: packed, blocked, iced up, tripped. */
  severe: boolean;
  /** Days within which somebody should come back, whatever the rule says. */
  returnVisitWithinDays?: number;
  /** What the tool would have done, when a lock or a calendar rule keeps it from doing so. */
  wouldHave?: { rule: string; weeks: number; dueOn: LocalDate; reason: string };
  /** A calendar rule that is longer than the evidence bears. */
  tooSlack?: boolean;
  evidence: E;
  modelVersion: string;
};

export type RevisionFrame = {
  timing: Timing;
  task: IntervalTask;
  settings: UnitPolicy;
  bounds: Bounds;
  locked: boolean;
  situation: Situation;
  hasNewEvidence: boolean;
  modelVersion: string;
};

/** Applies rails, locks and calendar rules; `explain` writes the sentence for a move. */
export function revise<E>(frame: RevisionFrame, evidence: E, explain: (from: number, move: Move) => string): Revision<E> {
  const { timing, situation: s } = frame;
  const from = currentWeeks(timing);
  const keep: Revision<E> = {
    rule: timing.currentRule,
    dueOn: dueUnder(timing.currentRule, timing),
    changed: false,
    weeks: from,
    fromWeeks: from,
    reason: null,
    guard: null,
    severe: s.severe,
    evidence,
    modelVersion: frame.modelVersion,
  };
  if (!frame.hasNewEvidence) return { ...keep, guard: 'no_evidence' };
  const back = s.severe ? { returnVisitWithinDays: frame.settings.returnWithinDays } : {};
  const move = railed(s, frame.task, frame.settings, frame.bounds);
  if (move.weeks === from) return { ...keep, ...back, guard: move.guard };
  const rule = ruleFor(move.weeks, timing);
  // Nobody asked for a longer interval that steps over the rule's own end.
  if (dateUnder(rule, { ...timing, anchor: 'last_completed' }) === null) return { ...keep, ...back };
  const reason = explain(from, move);
  const held = { rule, weeks: move.weeks, dueOn: dueUnder(rule, { ...timing, anchor: 'last_completed' }), reason };
  if (frame.locked) return { ...keep, ...back, guard: 'locked', wouldHave: held };
  // A contract's dates stay; only a rule that is too slack for the evidence is worth a word.
  if (timing.anchor === 'calendar')
    return move.weeks < from
      ? { ...keep, ...back, guard: 'calendar', tooSlack: true, wouldHave: held }
      : { ...keep, ...back, guard: 'calendar', wouldHave: held };
  return { ...keep, ...back, rule, dueOn: held.dueOn, changed: true, weeks: move.weeks, reason, guard: move.guard };
}
