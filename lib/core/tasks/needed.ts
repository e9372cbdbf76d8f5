import { ASPECT_LABEL, type Aspect } from '../findings/grades';
import { has, type Built } from '../findings/for-unit';
import { COIL_CLEANING, kindInfo, TASK_KEYS } from './kinds';

type Look = { unitId: string; aspect: string };

/** Aspects that a task asks for before it counts: those its unit has, or all while the unit is not at hand. */
const neededFor = (kindKey: string, unit: Built | undefined): Aspect[] =>
  (kindInfo(kindKey)?.neededBeforeClosing ?? []).filter((aspect) => !unit || has(unit, aspect));

/** Those of them that carry neither a grade nor a reason. */
export function unlookedFor(task: { kindKey: string; unitId: string }, unit: Built | undefined, looks: readonly Look[]): Aspect[] {
  const needed = neededFor(task.kindKey, unit);
  return needed.filter((a) => !looks.some((f) => f.unitId === task.unitId && f.aspect === a));
}

/** What a coil cleaning is nothing without: the coil's grade as found and as left, in words. Whoever cleaned it has seen it. */
export function ungradedCoil(
  task: { kindKey: string; unitId: string },
  unit: Built | undefined,
  looks: readonly (Look & { phase: string; grade: string | null })[],
): string[] {
  if (task.kindKey !== COIL_CLEANING || (unit && !has(unit, 'coil'))) return [];
  return (['found', 'left'] as const)
    .filter((phase) => !looks.some((f) => f.unitId === task.unitId && f.aspect === 'coil' && f.phase === phase && f.grade !== null))
    .map((phase) => `the coil as ${phase}`);
}

/** "ice on the low side and drain and pan". */
export const aspectWords = (aspects: readonly Aspect[]): string => aspects.map((a) => ASPECT_LABEL[a].toLowerCase()).join(' and ');

/** The kinds of task that ask for an aspect before they count. */
export const neededBy = (aspect: Aspect): string[] =>
  TASK_KEYS.flatMap((key) => {
    const info = kindInfo(key);
    return info?.neededBeforeClosing.includes(aspect) ? [info.label.toLowerCase()] : [];
  });
