import { keysOf } from '../typed/closed-set';
import type { Placement } from '../equipment/build';
import type { CautionTopic } from '../findings/cautions';
import type { Built } from '../findings/for-unit';
import type { Aspect, FailureAspect } from '../findings/grades';

type TaskKindInfo = {
  label: string;
  /** Within a sentence to customers who read Spanish. */
  spanish: string;
  minutes: number;
  /** Looks at the evaporator side: rides along with every task that brings the low side. */
  lowSide: boolean;
  /** Whoever does this must look at the low side on the same visit. */
  bringsLowSide: boolean;
  /** Aspects graded, or said why not, before it counts. */
  neededBeforeClosing: readonly Aspect[];
  /** Usual intervals: common practice, from memory (trade sites agree on monthly condenser checks for walk-ins). */
  defaultWeeks: number;
  minWeeks: number;
  maxWeeks: number;
  /** Weeks to start with where the nearest source of dirt matters; else the default. */
  startingWeeks?: Readonly<Record<Placement, number>>;
  /** Which units usually have it. */
  usualFor: (unit: Built) => boolean;
  /** What its interval is learned from: how the coil fouls, or how often an aspect is found failed; null from nothing. */
  learns: { from: 'fouling' } | { from: 'failures'; aspect: FailureAspect } | null;
  /** What it can hurt with. */
  cautions: readonly CautionTopic[];
};

/** A remote condensing unit has no evaporator of its own to look at. */
const hasLowSide = ({ kind }: Built) => kind !== 'remote_condensing_unit';
/** An ice machine's evaporator makes the ice: it is looked at where it is cleaned and sanitised. */
const hasColdCoil = (unit: Built) => hasLowSide(unit) && unit.kind !== 'ice_machine';
/** No fins to brush where water cools the condenser. */
const byWater = ({ condenserKind }: Built) => condenserKind === 'water_cooled';

/**
 * Kinds of recurring task that every shop starts with, in the order of its lists; a shop may add its own, which nothing
 * is learned from. A new one here needs its row in a migration too.
 */
export const TASK_KIND_INFO = {
  coil_cleaning: {
    label: 'Coil cleaning',
    spanish: 'limpieza del condensador',
    minutes: 18,
    lowSide: false,
    bringsLowSide: true,
    // The iced pan nobody opened is the costly one.
    neededBeforeClosing: ['ice', 'drain'],
    defaultWeeks: 13,
    minWeeks: 1,
    maxWeeks: 52,
    // Before any evidence: monthly beside the worst grease, half-yearly outdoors (from memory).
    startingWeeks: { fryer: 4, charbroiler: 4, wok: 4, griddle: 8, bakery: 8, line: 8, back_of_house: 13, bar: 26, outdoors: 26 },
    usualFor: (unit) => !byWater(unit),
    learns: { from: 'fouling' },
    cautions: ['coil'],
  },
  drain_inspection: {
    label: 'Drain inspection',
    spanish: 'revisión del desagüe',
    minutes: 4,
    lowSide: true,
    bringsLowSide: false,
    neededBeforeClosing: [],
    defaultWeeks: 13,
    minWeeks: 2,
    maxWeeks: 26,
    usualFor: hasLowSide,
    learns: { from: 'failures', aspect: 'drain' },
    cautions: [],
  },
  evaporator_inspection: {
    label: 'Evaporator inspection',
    spanish: 'revisión del evaporador',
    minutes: 5,
    lowSide: true,
    bringsLowSide: false,
    neededBeforeClosing: [],
    defaultWeeks: 13,
    minWeeks: 2,
    maxWeeks: 26,
    usualFor: hasColdCoil,
    learns: { from: 'failures', aspect: 'ice' },
    cautions: [],
  },
  ice_machine_cleaning: {
    label: 'Ice machine clean and sanitise',
    spanish: 'limpieza y desinfección de la máquina de hielo',
    minutes: 60,
    lowSide: false,
    bringsLowSide: false,
    neededBeforeClosing: [],
    defaultWeeks: 26,
    minWeeks: 8,
    maxWeeks: 26,
    usualFor: ({ kind }) => kind === 'ice_machine',
    learns: null,
    cautions: ['chemicals'],
  },
  // What stands in a coil cleaning's place: flow, water valve, leaks, how far condensing stands over the water; descaled where it calls for it.
  water_side_check: {
    label: 'Water side check',
    spanish: 'revisión del circuito de agua del condensador',
    minutes: 18,
    lowSide: false,
    bringsLowSide: true,
    neededBeforeClosing: ['ice', 'drain'],
    defaultWeeks: 26,
    minWeeks: 4,
    maxWeeks: 52,
    usualFor: byWater,
    learns: null,
    cautions: ['water'],
  },
} as const satisfies Record<string, TaskKindInfo>;

type Table = typeof TASK_KIND_INFO;
export type TaskKey = keyof Table;
/** Kinds whose interval is learned from what is found. */
export type LearningTask = { [K in TaskKey]: Table[K] extends { learns: object } ? K : never }[TaskKey];
/** Those among them that only look. */
export type InspectionTask = { [K in TaskKey]: Table[K] extends { learns: { from: 'failures' } } ? K : never }[TaskKey];

export const TASK_KEYS = keysOf(TASK_KIND_INFO);
/** The one whose evidence is the coil itself. */
export const COIL_CLEANING = 'coil_cleaning' satisfies TaskKey;
/** What a condenser is seen to by: one of the two, by what cools it. */
export const condenserTask = (unit: Pick<Built, 'condenserKind'>): 'coil_cleaning' | 'water_side_check' =>
  unit.condenserKind === 'water_cooled' ? 'water_side_check' : COIL_CLEANING;
/** Whether a kind is for condensers cooled otherwise than this unit's. */
export const isForOtherCondenser = (key: string, unit: Pick<Built, 'condenserKind'>): boolean =>
  (key === COIL_CLEANING || key === 'water_side_check') && key !== condenserTask(unit);

const isOurs = (key: string): key is TaskKey => Object.hasOwn(TASK_KIND_INFO, key);
/** What we know of a kind; null for one of the shop's own. */
export const kindInfo = (key: string): TaskKindInfo | null => (isOurs(key) ? TASK_KIND_INFO[key] : null);
export const isUsualKind = isOurs;

export const LEARNING_TASKS = TASK_KEYS.filter((key): key is LearningTask => TASK_KIND_INFO[key].learns !== null);
export const learningTask = (key: string): LearningTask | null => LEARNING_TASKS.find((k) => k === key) ?? null;
/** The aspect that an inspection looks at. */
export const looksAt = (task: InspectionTask): FailureAspect => TASK_KIND_INFO[task].learns.aspect;

/** The tasks a unit of this build usually has. */
export const usualTasks = (unit: Built): readonly TaskKey[] => TASK_KEYS.filter((key) => kindInfo(key)?.usualFor(unit));

/** Weeks to start with, before any evidence of the unit's own. */
export function startingWeeks(task: TaskKey, placement: Placement): number {
  const info: TaskKindInfo = TASK_KIND_INFO[task];
  return info.startingWeeks?.[placement] ?? info.defaultWeeks;
}

/** As rows of the database. */
export const TASK_KINDS = TASK_KEYS.map((key, sort) => {
  const { label, minutes, lowSide, neededBeforeClosing, defaultWeeks, minWeeks, maxWeeks }: TaskKindInfo = TASK_KIND_INFO[key];
  return { key, label, minutes, lowSide, neededBeforeClosing: [...neededBeforeClosing], defaultWeeks, minWeeks, maxWeeks, sort };
});
