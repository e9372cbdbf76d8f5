import { toDay, type LocalDate } from '../calendar';
import type { Placement } from '../equipment/build';
import { gradeIndex, type CoilGrade, type FanGrade } from '../findings/grades';
import type { TripCause } from '../findings/trip-causes';
import { SAID_CHANGES, type SaidChange } from './said-change';

/** Where a unit stands: what its condenser breathes, and whose kitchen it is. */
export type Exposure = { placement: Placement; kitchenId: string };

/** Before or after the cleaning of the same day; without a cleaning that day it makes no difference. */
export type Phase = 'before' | 'after';

export type UnitEvent =
  /** `deep`: pulled, or foamed and rinsed right through, so that old residue comes off too. */
  | { kind: 'cleaning'; on: LocalDate; deep?: boolean }
  /** `by`: whose eye it was, where that is known. */
  | { kind: 'coil'; on: LocalDate; grade: CoilGrade; phase: Phase; by?: string }
  /**
   * ln of conductance over its clean value (0 = clean, negative = lost) with its standard deviation.
   * `setAside` names a cause other than the coil (unsteady, cold air, door open): kept on file, not used.
   * `teaches`: the clean value is taught by this very reading, so that it says nothing of the coil itself.
   */
  | { kind: 'reading'; on: LocalDate; lnK: number; sd: number; phase: Phase; setAside?: string; teaches?: boolean }
  | { kind: 'fan'; on: LocalDate; grade: FanGrade }
  /** `cause` other than the coil, where somebody found one: such a trip says nothing of fouling. */
  | { kind: 'trip'; on: LocalDate; cause?: TripCause }
  /** Somebody says that from this day on the coil breathes more, or less, than before. */
  | { kind: 'change'; on: LocalDate; said: SaidChange };

export type UnitHistory = {
  /** First day of the record. */
  startedOn: LocalDate;
  /** True for a new or just cleaned coil; false when nobody knows how long it had run. */
  startedClean: boolean;
  events: readonly UnitEvent[];
};

const KIND_ORDER = { change: -1, fan: 0, trip: 1, coil: 2, reading: 3, cleaning: 4 } as const;

// Within a day: what was met first, then the cleaning, then what was seen after it. Ties are settled by content,
// so that two findings of one day may arrive in any order.
function rank(event: UnitEvent): number {
  const late = 'phase' in event && event.phase === 'after';
  return KIND_ORDER[event.kind] + (late ? 10 : 0);
}

function content(event: UnitEvent): number {
  if (event.kind === 'coil') return gradeIndex('coil', event.grade);
  if (event.kind === 'fan') return gradeIndex('condenser_fan', event.grade);
  if (event.kind === 'cleaning') return event.deep ? 1 : 0;
  if (event.kind === 'change') return SAID_CHANGES.indexOf(event.said);
  if (event.kind === 'trip') return event.cause === undefined ? 0 : 1;
  return event.kind === 'reading' ? event.lnK : 0;
}

function compareEvents(a: UnitEvent, b: UnitEvent): number {
  if (a.on !== b.on) return a.on < b.on ? -1 : 1;
  const byRank = rank(a) - rank(b);
  if (byRank !== 0) return byRank;
  const byContent = content(a) - content(b);
  if (byContent !== 0) return byContent;
  return a.kind === 'reading' && b.kind === 'reading' ? a.sd - b.sd : 0;
}

/** The events in the order in which they are taken; the input is left alone. */
export function ordered(events: readonly UnitEvent[]): UnitEvent[] {
  for (let i = 1; i < events.length; i++)
    if (compareEvents(events[i - 1] as UnitEvent, events[i] as UnitEvent) > 0) return [...events].sort(compareEvents);
  return events as UnitEvent[];
}

/** Days since the coil was last known clean on `on`: the last cleaning before that day, or the start if it was clean. */
export function daysSinceClean(history: UnitHistory, on: LocalDate): number | null {
  let last: LocalDate | null = history.startedClean ? history.startedOn : null;
  for (const e of history.events) if (e.kind === 'cleaning' && e.on < on && (last === null || e.on > last)) last = e.on;
  return last === null ? null : toDay(on) - toDay(last);
}
