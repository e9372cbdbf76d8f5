import { ASPECT_LABEL, type Aspect } from '../findings/grades';
import type { UnitKind } from '../equipment/build';
import { kindInfo, TASK_KEYS } from './kinds';

type Look = { unitId: string; aspect: string };

/** What a task asks for on a unit of this kind: no more than the unit has. The database holds the same (task_unlooked). */
export const neededOn = (kindKey: string, unitKind?: UnitKind): readonly Aspect[] =>
  (kindInfo(kindKey)?.neededBeforeClosing ?? []).filter(
    (a) => unitKind !== 'remote_condensing_unit' && !(unitKind === 'ice_machine' && a === 'ice'),
  );

/** Aspects that a task asks for before it counts, and that carry neither a grade nor a reason. */
export function unlookedFor(task: { kindKey: string; unitId: string; unitKind?: UnitKind }, looks: readonly Look[]): Aspect[] {
  const needed = neededOn(task.kindKey, task.unitKind);
  return needed.filter((a) => !looks.some((f) => f.unitId === task.unitId && f.aspect === a));
}

/** "ice on the low side and drain and pan". */
export const aspectWords = (aspects: readonly Aspect[]): string => aspects.map((a) => ASPECT_LABEL[a].toLowerCase()).join(' and ');

/** The kinds of task that ask for an aspect before they count. */
export const neededBy = (aspect: Aspect): string[] =>
  TASK_KEYS.flatMap((key) => {
    const info = kindInfo(key);
    return info?.neededBeforeClosing.includes(aspect) ? [info.label.toLowerCase()] : [];
  });
