import type { Placement, UnitKind } from '../equipment/build';

/** Kinds of recurring task that every shop starts with; a shop may add its own. */
export const TASK_KEYS = ['coil_cleaning', 'drain_inspection', 'evaporator_inspection', 'ice_machine_cleaning'] as const;
export type TaskKey = (typeof TASK_KEYS)[number];

export type TaskKindDefault = {
  key: TaskKey;
  label: string;
  minutes: number;
  /** Looks at the evaporator side: rides along with every coil cleaning. */
  lowSide: boolean;
  defaultWeeks: number;
  minWeeks: number;
  maxWeeks: number;
};

/** Usual intervals: common practice, from memory (trade sites agree on monthly condenser checks for walk-ins). */
export const TASK_KINDS: readonly TaskKindDefault[] = [
  { key: 'coil_cleaning', label: 'Coil cleaning', minutes: 18, lowSide: false, defaultWeeks: 13, minWeeks: 2, maxWeeks: 52 },
  { key: 'drain_inspection', label: 'Drain inspection', minutes: 4, lowSide: true, defaultWeeks: 13, minWeeks: 2, maxWeeks: 26 },
  { key: 'evaporator_inspection', label: 'Evaporator inspection', minutes: 5, lowSide: true, defaultWeeks: 13, minWeeks: 2, maxWeeks: 26 },
  {
    key: 'ice_machine_cleaning',
    label: 'Ice machine clean and sanitise',
    minutes: 60,
    lowSide: false,
    defaultWeeks: 26,
    minWeeks: 8,
    maxWeeks: 26,
  },
];

/** Weeks between coil cleanings before any evidence: monthly beside the worst grease, half-yearly outdoors (from memory). */
const COIL_WEEKS: Record<Placement, number> = {
  fryer: 4, charbroiler: 4, wok: 4, griddle: 8, bakery: 8, line: 8, back_of_house: 13, bar: 26, outdoors: 26,
}; // prettier-ignore

/** The tasks a unit of this kind usually has. A remote condensing unit has no evaporator of its own to look at. */
export function usualTasks(kind: UnitKind): readonly TaskKey[] {
  if (kind === 'remote_condensing_unit') return ['coil_cleaning'];
  if (kind === 'ice_machine') return ['coil_cleaning', 'drain_inspection', 'evaporator_inspection', 'ice_machine_cleaning'];
  return ['coil_cleaning', 'drain_inspection', 'evaporator_inspection'];
}

/** Weeks to start with, before any evidence of the unit's own. */
export function startingWeeks(task: TaskKey, placement: Placement): number {
  if (task === 'coil_cleaning') return COIL_WEEKS[placement];
  return TASK_KINDS.find((k) => k.key === task)?.defaultWeeks ?? 13;
}
