/**
 * The dispatcher's week in and out. Instants are milliseconds since 1970-01-01 UTC; days are
 * whole day numbers of the local calendar (days since 1970-01-01, `toDay` of the calendar);
 * durations are minutes; money is the shop's own. All ranges are half-open, [startMs, endMs):
 * whoever calls works out local times, so that no time zone is needed here.
 */
export interface TimeRange {
  readonly startMs: number;
  readonly endMs: number;
}

/** Degrees; or a row of the travel matrix; or both. Where neither is known, minutes that are taken for any way there. */
export interface Place {
  readonly lat?: number | null;
  readonly lng?: number | null;
  readonly matrixRow?: number | null;
  /** `id` tells one such place from another. */
  readonly unknown?: { readonly id: string; readonly minutes: number };
}

export interface Shift {
  readonly day: number;
  readonly hours: TimeRange;
  /** Home or shop. */
  readonly startPlace: Place;
  readonly endPlace: Place;
  /** How long the day may run over, at the overtime price. */
  readonly overtimeMinutes?: number;
  /** Of these, the last so many are for what cannot wait and for nothing else. */
  readonly onCallMinutes?: number;
  /** The whole of it is: the person is on call, not at work. */
  readonly onCall?: boolean;
}

/** Someone with days off simply has no shift on them. */
export interface Technician {
  readonly id: string;
  readonly name: string;
  readonly skills: readonly string[];
  readonly shifts: readonly Shift[];
}

export interface Kitchen {
  readonly id: string;
  readonly name: string;
  readonly place: Place | null;
  /** When work may be going on: service hours less rush hours, hood cleaning, closed days and holidays. */
  readonly open: readonly TimeRange[];
  /** Parking, signing in, finding the key: minutes for every visit. */
  readonly accessMinutes?: number;
  /** Learned time on site over standard time (learnMinutes). */
  readonly durationFactor?: number;
  /** Skills that any work here needs. */
  readonly skills?: readonly string[];
  /** What another trip here costs, if not estimated from the places nearby. */
  readonly anotherTrip?: number;
}

export interface PlanTask {
  readonly id: string;
  readonly kitchenId: string;
  /** Tasks of one unit ride together where one is a coil cleaning and another a low-side inspection. */
  readonly unitId?: string;
  readonly role?: 'coil_cleaning' | 'low_side_inspection' | 'other';
  readonly name: string;
  /** Standard minutes. */
  readonly minutes: number;
  readonly dueDay: number;
  /** Days between two doings, for the share of the interval that is thrown away by coming early. */
  readonly intervalDays: number;
  /** Skills beyond the kitchen's own, for instance flammable refrigerants or roof work. */
  readonly skills?: readonly string[];
  /** Not before this day, for instance because a part comes then. */
  readonly notBeforeDay?: number;
  /** What one doing costs, if not its minutes at the work price. */
  readonly worth?: number;
  /** Price of each day past due, if not the shop's. */
  readonly overduePerDay?: number;
}

/** A visit that stays where it is. */
export interface FixedVisit {
  readonly id: string;
  readonly technicianId: string;
  readonly kitchenId: string;
  readonly hours: TimeRange;
  /** How much later it may begin, at the lateness price. */
  readonly mayRunLateMinutes?: number;
  readonly taskIds: readonly string[];
}

export interface Travel {
  /** Road distance over great-circle distance. */
  readonly circuity: number;
  readonly speedKmh: number;
  /** Minutes from row to column, where the shop has imported them; NaN where it has not. */
  readonly matrix?: readonly (readonly number[])[];
}

export interface Prices {
  /** A minute at the wheel: wage and van. */
  readonly drivingPerMinute: number;
  /** A minute of paid work. */
  readonly workPerMinute: number;
  /** On top, for each minute past the end of the shift. */
  readonly overtimePerMinute: number;
  /** For each minute a fixed visit begins late. */
  readonly latePerMinute: number;
  /** For each day a task is done after its due day. */
  readonly overduePerDay: number;
  /** For each task due within the days planned that is not placed at all. */
  readonly leftUndone: number;
  /** For each visit to a kitchen past its first on the days planned, a booked one counted; nothing if not given. */
  readonly secondVisit?: number;
}

export interface WeekProblem {
  readonly technicians: readonly Technician[];
  readonly kitchens: readonly Kitchen[];
  readonly tasks: readonly PlanTask[];
  readonly fixed?: readonly FixedVisit[];
  readonly travel: Travel;
  readonly prices: Prices;
  /** Visits that are not fixed begin on minutes of the clock divisible by this. Any minute by default. */
  readonly startsEveryMinutes?: number;
  /** First day after the days planned: what is left is done on a later trip, from this day on. */
  readonly nextDay: number;
}

export interface PlannedVisit {
  readonly kitchenId: string;
  readonly technicianId: string;
  readonly day: number;
  readonly hours: TimeRange;
  readonly taskIds: readonly string[];
  /** Driving to this visit from the stop before it. */
  readonly driveMinutes: number;
  /** The fixed visit this is, if it is one, and how late it begins. */
  readonly fixedId: string | null;
  readonly lateMinutes: number;
}

/** One technician's day. */
export interface Round {
  readonly technicianId: string;
  readonly day: number;
  /** Leaving the first place no earlier than needed, and back at the last. */
  readonly leaveMs: number;
  readonly backMs: number;
  readonly driveMinutes: number;
  readonly homeDriveMinutes: number;
  readonly overtimeMinutes: number;
  /** Indexes into the plan's visits, in order. */
  readonly visits: readonly number[];
}

export const REASONS = [
  'no_place',
  'no_hours',
  'reversed_hours',
  'bad_task',
  'unknown_kitchen',
  'no_skill',
  'skill_off',
  'no_shift',
  'hours_too_short',
  'hours_never_meet',
  'not_yet',
  'too_far',
  'full',
  'dearer',
  'fixed_clash',
  'later',
] as const;
export type ReasonCode = (typeof REASONS)[number];

export interface Reason {
  readonly code: ReasonCode;
  /** A sentence for the dispatcher. */
  readonly message: string;
}

export interface LeftTask {
  readonly taskId: string;
  readonly reason: Reason;
}

/** Money, with the minutes and days behind it. `total` is the sum of the parts. */
export interface CostBreakdown {
  readonly total: number;
  readonly driving: number;
  readonly drivingMinutes: number;
  /** Parking and signing in, once a visit; and what it is priced at to come to a kitchen more than once. */
  readonly visits: number;
  readonly overtime: number;
  readonly overtimeMinutes: number;
  readonly lateness: number;
  readonly latenessMinutes: number;
  /** Interval life thrown away by coming early. */
  readonly early: number;
  readonly overdue: number;
  /** Later trips, and due work left undone. */
  readonly left: number;
}

export interface Plan {
  readonly visits: readonly PlannedVisit[];
  readonly rounds: readonly Round[];
  /** Due within the days planned, or with something wrong, and not placed. */
  readonly unplaced: readonly LeftTask[];
  /** Not due yet and better left for a later trip. */
  readonly later: readonly LeftTask[];
  readonly cost: CostBreakdown;
  /** No plan costs less than this. */
  readonly lowerBound: number;
  /** (total − lowerBound) / total, 0 when proven best. */
  readonly gap: number;
  readonly proven: boolean;
  readonly seed: number;
  /** False when time ran out first: the same seed then need not give the same plan. */
  readonly finished: boolean;
}
