import type { UnitSent } from '../equipment/unit-fields';
import type { Aspect, Grade } from '../findings/grades';
import type { PartPlace } from '../parts/places';
import type { SealedStepEntry } from '../sealed/work';
import type { TripCause } from '../findings/trip-causes';
import type { TaskKey } from '../tasks/kinds';
import type { ReadingField } from './reading-fields';

/**
 * What a technician's device writes down. An entry is never changed and never removed: it is made on the device
 * with its own id, kept there until the office has it, and applied there exactly once. Times are ISO 8601 instants,
 * quantities SI (kelvin, pascal above the local atmosphere, ampere).
 */
export const ENTRY_VERSION = 6;

export const FINDING_PHASES = ['found', 'left'] as const;
/** As met on arrival, or as left behind. */
export type FindingPhase = (typeof FINDING_PHASES)[number];

export { FIELD_INFO, READING_FIELDS, type ReadingField } from './reading-fields';

/** Exactly what was typed and in which unit. */
export type Entered = Partial<Record<ReadingField, { text: string; unit: string }>>;
export type Questioned = { field: ReadingField; question: string; answer: string };

export type ReadingValues = Partial<Record<ReadingField, number>>;

/** What can have happened to a unit. */
export const UNIT_EVENT_LABEL = {
  high_pressure_trip: 'High-pressure trip',
  coil_cleaned_before: 'Coil cleaned before our first visit',
  compressor_replaced: 'Compressor replaced',
  fan_replaced: 'Fan replaced',
  refrigerant_added: 'Refrigerant added',
  note: 'Something else worth keeping',
  washed_through: 'Coil washed right through',
  fouls_more: 'More grease or lint from now on',
  fouls_less: 'Less grease or lint from now on',
} as const;
export type UnitEventKind = keyof typeof UNIT_EVENT_LABEL;

/** Those a technician writes down; the rest follows from what is put on file. */
export const ENTERED_EVENTS = [
  'high_pressure_trip',
  'washed_through',
  'fouls_more',
  'fouls_less',
  'compressor_replaced',
  'fan_replaced',
  'refrigerant_added',
  'note',
] as const;
export type EnteredEvent = (typeof ENTERED_EVENTS)[number];

export const URGENCIES = ['now', 'soon', 'next', 'quote'] as const;
/** How soon work is wanted; "now" is a unit that stays off, which the office hears of at once. */
export type Urgency = (typeof URGENCIES)[number];
export const URGENCY_LABEL: Record<Urgency, string> = {
  now: 'Now: it stays off',
  soon: 'Within days',
  next: 'At the next visit',
  quote: 'Quote first',
};

/** How a unit is left that does not simply run, and what that asks of the office. */
export type LeftHow = { label: string; what: string; urgency: Urgency; event: EnteredEvent | null };
export const LEFT_HOW: readonly LeftHow[] = [
  { label: 'Stays off: office, now', what: 'Left off: it stays off until somebody has worked on it', urgency: 'now', event: null },
  { label: 'Tripped, left off', what: 'Tripped on high pressure, left off', urgency: 'now', event: 'high_pressure_trip' },
  { label: 'Left running, watch', what: 'Left running: look at it again within days', urgency: 'soon', event: null },
];

export const JOB_OUTCOMES = ['done', 'found_right', 'needs_part', 'needs_quote', 'not_done'] as const;
/** What became of a job at a visit. */
export type JobOutcome = (typeof JOB_OUTCOMES)[number];
export const JOB_OUTCOME_LABEL: Record<JobOutcome, string> = {
  done: 'Done',
  found_right: 'Found right',
  needs_part: 'Needs a part',
  needs_quote: 'Needs a quote',
  not_done: 'Not done',
};
/** Those that say nothing without a reason: which part, why not. */
export const OUTCOME_ASKS_WHY: Record<JobOutcome, boolean> = {
  done: false,
  found_right: false,
  needs_part: true,
  needs_quote: false,
  not_done: true,
};

export const STRUCK = ['part', 'follow_up', 'event', 'photo'] as const;

export type Payloads = {
  'visit.start': { arrivedAt: string };
  'finding.set': {
    unitId: string;
    aspect: Aspect;
    phase: FindingPhase;
    /** Null when it was not looked at; then `notLookedWhy` says why. */
    grade: Grade | null;
    notLookedWhy: string;
    note: string;
    /** The entry this one is meant to replace, as the device knew it. Anything else there is a conflict. */
    replaces: string | null;
  };
  'reading.add': {
    unitId: string;
    phase: 'before' | 'after';
    values: ReadingValues;
    gaugeGrade: string | null;
    gaugeSpanPa: number | null;
    entered: Entered;
    questioned: Questioned[];
    replaces: string | null;
  };
  'unit.outcome': { unitId: string; outcome: 'seen' | 'could_not_reach' | 'gone'; reason: string };
  /** `taskIds`: of its usual tasks, so that work on it can be written down at once; `replacesId`: the unit in whose place it stands. */
  'unit.add': { unitId: string; taskIds?: Partial<Record<TaskKey, string>>; replacesId?: string | null } & UnitSent;
  /** Work on a unit that nobody had planned for this visit. */
  'task.take': { taskId: string; unitId: string };
  'task.done': { taskId: string };
  'task.not_done': { taskId: string; reason: string };
  'photo.attach': {
    unitId: string | null;
    aspect: Aspect | null;
    phase: 'before' | 'after';
    sha256: string;
    bytes: number;
    takenAt: string;
  };
  /** `png` is base64 without a prefix, or null with `nobodyThere`. */
  'signature.set': { nobodyThere: boolean; signedBy: string; png: string | null };
  /** `partId`: of the shop's list, and from where it was taken; words of one's own have neither. */
  'part.use': { unitId: string | null; what: string; quantity: number; partId?: string | null; place?: PartPlace | null };
  'follow_up.add': { unitId: string; what: string; urgency: Urgency; note: string };
  /** Of two sayings the later stands; it takes hold when the visit closes. */
  'job.outcome': { jobId: string; outcome: JobOutcome; note: string };
  'food_warning.add': { unitId: string; boxK: number; toldTo: string; toldAt: string; note: string };
  /** One step of work on a sealed circuit: what was done, or why it was left out. A later one of the same step stands in its place. */
  'sealed.step': Omit<SealedStepEntry, 'id' | 'at'>;
  /** `cause`: what was behind a trip; null where nobody knows yet, and for everything else. */
  'event.add': { unitId: string; kind: EnteredEvent; at: string; note: string; cause: TripCause | null };
  /** Takes back an entry that was a slip; the history keeps both. */
  'entry.strike': { what: (typeof STRUCK)[number]; entryId: string; why: string };
  /** `taskIds` are the tasks the device knew of, so that one added meanwhile is not taken for forgotten. */
  'visit.close': { leftAt: string; taskIds: string[] };
};

export type EntryKind = keyof Payloads;

/** One entry. Its id becomes the id of the row it makes. */
export type Entry<K extends EntryKind = EntryKind> = {
  [P in EntryKind]: {
    id: string;
    /** 1, 2, 3 … on its device, without gaps: the office applies them in this order. */
    seq: number;
    kind: P;
    version: number;
    visitId: string;
    /** The office's time as far as the device knew it, never before the entry made before. */
    madeAt: string;
    /** Server time of the refresh the entry was based on; it cannot have been made earlier. */
    basedOn: string;
    payload: Payloads[P];
  };
}[K];

export const ENTRY_LABEL: Record<EntryKind, string> = {
  'visit.start': 'Arrived',
  'finding.set': 'Finding',
  'reading.add': 'Reading',
  'unit.outcome': 'Unit reached or not',
  'unit.add': 'Unit not on file',
  'task.take': 'Task taken on',
  'task.done': 'Task done',
  'task.not_done': 'Task not done',
  'photo.attach': 'Photo',
  'signature.set': 'Signature',
  'part.use': 'Part used',
  'follow_up.add': 'Follow-up',
  'job.outcome': 'Job',
  'food_warning.add': 'Food temperature warning',
  'event.add': 'Event',
  'sealed.step': 'Step on the sealed system',
  'entry.strike': 'Entry taken back',
  'visit.close': 'Visit closed',
};

/** How the office answered an entry. */
export type Outcome = 'applied' | 'conflict' | 'rejected';
export type EntryResult = { id: string; outcome: Outcome; note: string };
