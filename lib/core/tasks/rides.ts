import { keysOf } from '../typed/closed-set';
import { kindInfo, TASK_KIND_INFO } from './kinds';

type TaskLike = { id: string; unitId: string; kindKey: string; lowSide: boolean; onVisit: unknown };

/** Kinds that bring the low side. */
export const BRINGING_KINDS: string[] = keysOf(TASK_KIND_INFO).filter((key) => TASK_KIND_INFO[key].bringsLowSide);
export const bringsLowSide = (kindKey: string): boolean => kindInfo(kindKey)?.bringsLowSide ?? false;

/**
 * The low-side inspections that ride along with the chosen tasks: of every unit whose coil is to be cleaned, unless they
 * stand on another visit. An open unit is looked at whole: ice or a drain left for later brings somebody back within weeks.
 */
export function ridersOf<T extends TaskLike>(all: readonly T[], chosen: (task: T) => boolean): T[] {
  const units = new Set(all.filter((t) => chosen(t) && bringsLowSide(t.kindKey)).map((t) => t.unitId));
  return all.filter((t) => t.lowSide && units.has(t.unitId) && !t.onVisit);
}

/** The chosen tasks with what rides along, in the order of the list. */
export function withRiders<T extends TaskLike>(all: readonly T[], chosenIds: readonly string[]): T[] {
  const chosen = new Set(chosenIds);
  const riders = new Set(ridersOf(all, (t) => chosen.has(t.id)));
  return all.filter((t) => chosen.has(t.id) || riders.has(t));
}
