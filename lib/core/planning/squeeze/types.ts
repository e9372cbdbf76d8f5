import type { TimeRange } from '../types';

/** A visit on the books, as far as an emergency has to respect it. */
export interface BookedVisit {
  readonly id: string;
  readonly technicianId: string;
  readonly kitchenId: string;
  readonly hours: TimeRange;
  /** Skills its work needs, should it go to someone else. */
  readonly skills: readonly string[];
  /** Begun, or promised to the minute: it does not move. */
  readonly fixed: boolean;
}

export interface Emergency {
  readonly kitchenId: string;
  readonly name: string;
  readonly minutes: number;
  readonly skills: readonly string[];
  /** When someone may be let in; the kitchen's own hours if not given. */
  readonly open?: readonly TimeRange[];
}

export interface SqueezePrices {
  /** Each minute the emergency waits. */
  readonly waitPerMinute: number;
  /** Each visit that has to be told of another time, and each minute it moves. */
  readonly movedVisit: number;
  readonly movedPerMinute: number;
  /** On top, for a visit that goes to another day or technician. */
  readonly rebooked: number;
}

export interface MovedVisit {
  readonly visitId: string;
  readonly fromTechnicianId: string;
  readonly technicianId: string;
  readonly from: TimeRange;
  readonly to: TimeRange;
}

export interface SqueezeOption {
  readonly technicianId: string;
  readonly hours: TimeRange;
  readonly waitMinutes: number;
  readonly moved: readonly MovedVisit[];
  readonly extraDriveMinutes: number;
  readonly overtimeMinutes: number;
  /** Whoever is sent is on call then, not at work. */
  readonly onCall: boolean;
  readonly cost: number;
  readonly message: string;
}
