import { keysOf } from '../typed/closed-set';
import type { CondenserKind, UnitKind } from '../equipment/build';
import type { Aspect, CoilGrade } from './grades';

/** What there is to look at on a unit, and how, by what it is. */

export const SIDES = ['high', 'water', 'low', 'box'] as const;
export type Side = (typeof SIDES)[number];
export const SIDE_LABEL: Record<Side, string> = { high: 'High side', water: 'Water side', low: 'Low side', box: 'Box' };

const SIDE_OF: Record<Aspect, Side> = {
  coil: 'high',
  condenser_fan: 'high',
  air_path: 'high',
  ice: 'low',
  evaporator_coil: 'low',
  evaporator_fan: 'low',
  drain: 'low',
  gasket: 'box',
  scale: 'water',
  float: 'water',
};

/** What a unit is built as, as far as what there is to look at goes. */
export type Built = { kind: UnitKind; condenserKind: CondenserKind };

/** Whether a unit of this build has the part at all; the database knows the same as `unit_has`. */
export function has(unit: Built, aspect: Aspect): boolean {
  if (SIDE_OF[aspect] === 'high') return unit.condenserKind !== 'water_cooled';
  if (unit.kind === 'remote_condensing_unit') return false;
  // An ice machine makes its ice where others must have none; its drain is a drain.
  if (unit.kind === 'ice_machine') return SIDE_OF[aspect] === 'water' || aspect === 'drain';
  return SIDE_OF[aspect] !== 'water';
}

/** Aspects of a unit in the order of the work, by side; sides with nothing are left out. */
export function aspectsOf(unit: Built): { side: Side; aspects: Aspect[] }[] {
  const all = keysOf(SIDE_OF);
  return SIDES.map((side) => ({ side, aspects: all.filter((a) => SIDE_OF[a] === side && has(unit, a)) })).filter(
    (s) => s.aspects.length > 0,
  );
}

/** Graded together in one tap, each its best, where nothing is wrong with them. */
export const SOUND_TOGETHER: readonly Aspect[] = ['condenser_fan', 'air_path', 'evaporator_fan', 'gasket', 'float'];

/**
 * How a coil's grade is told where no lamp goes behind: microchannel, wire and tube, or boxed in. A strip of paper held
 * to the face while the fan runs by hand or blower shows where air still passes. Two people who look at one coil should
 * say the same word: docs/grades.md says how to try that.
 */
const WITHOUT_LAMP: Record<CoilGrade, string> = {
  bare: 'Bright; a finger comes away clean.',
  filmed: 'Dull; a finger comes away grey or greasy. Nothing stands up from the face.',
  furred: 'A coat stands up from the face and can be lifted off; a strip of paper is still drawn on all over.',
  matted: 'The coat closes it in patches: there the paper falls off.',
  packed: 'Closed: the paper falls off nearly everywhere.',
};
const WIRE: Record<CoilGrade, string> = {
  bare: 'Wires bright; a finger comes away clean.',
  filmed: 'Wires dull; a finger comes away grey or greasy. Nothing hangs on them.',
  furred: 'Fluff hangs on the wires; every gap between them is open.',
  matted: 'Fluff bridges the gaps in patches.',
  packed: 'A blanket: hardly a wire is to be seen.',
};

/** Words of a coil's grades for this condenser; null where the usual ones, with a lamp behind it, fit. */
export function coilWords(kind: CondenserKind, lampGoesBehind: boolean): Record<CoilGrade, string> | null {
  if (kind === 'wire_and_tube') return WIRE;
  return kind === 'microchannel' || !lampGoesBehind ? WITHOUT_LAMP : null;
}
