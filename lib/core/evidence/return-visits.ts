import { addDays, type LocalDate } from '../calendar';
import { isSevere, type Aspect } from '../findings/grades';
import type { FindingFact, UnitFile } from './unit-file';

/** What calls somebody back within days, whatever the rules say. The order is that of urgency. */
export const RETURN_CAUSES = ['ice_block', 'drain_blocked', 'coil_packed', 'high_pressure_trip'] as const;
export type ReturnCause = (typeof RETURN_CAUSES)[number];

export const RETURN_WORDS: Record<ReturnCause, string> = {
  ice_block: 'Go back: solid ice on the low side',
  drain_blocked: 'Go back: drain did not run',
  coil_packed: 'Go back: coil was packed',
  high_pressure_trip: 'Go back: tripped on high pressure',
};

/** What has to be looked at before what was gone back for is met. */
const RETURN_LOOKS_AT: Record<ReturnCause, Aspect> = {
  ice_block: 'ice',
  drain_blocked: 'drain',
  coil_packed: 'coil',
  high_pressure_trip: 'coil',
};

export type ReturnVisit = { cause: ReturnCause; what: string; note: string; dueOn: LocalDate };

/** Return visits that the day's findings and trips of one unit ask for. Its caution is part of the note. */
export function returnVisits(on: LocalDate, findings: readonly FindingFact[], tripped: boolean, withinDays: number): ReturnVisit[] {
  const met = findings.filter((f) => f.on === on && f.phase === 'found');
  const causes: [ReturnCause, boolean, string][] = [
    [
      'ice_block',
      met.some((f) => f.aspect === 'ice' && isSevere('ice', f.grade)),
      'See that it stays clear and the box holds temperature; find why it iced.',
    ],
    [
      'drain_blocked',
      met.some((f) => f.aspect === 'drain' && isSevere('drain', f.grade)),
      'Pour a cup of water and watch it go; look at the line, the trap and the heater.',
    ],
    [
      'coil_packed',
      met.some((f) => f.aspect === 'coil' && isSevere('coil', f.grade)),
      'Read it again after a few days of service: did the cleaning hold, is it clean all through?',
    ],
    [
      'high_pressure_trip',
      tripped,
      'Never hold a cut-out closed. Read head and air again; look at fan, air path and charge before blaming the coil.',
    ],
  ];
  return causes
    .filter(([, asked]) => asked)
    .map(([cause, , note]) => ({ cause, what: RETURN_WORDS[cause], note, dueOn: addDays(on, withinDays) }));
}

/** A "go back" on file; what a person asks for never has a date to go back by. */
export type ReturnOnFile = { id: string; what: string; open: boolean; visitId: string | null; openedOn: LocalDate };

/** What has to be looked at before what these words asked for is met. */
const aspectOf = (what: string): Aspect | undefined =>
  RETURN_CAUSES.filter((cause) => RETURN_WORDS[cause] === what).map((cause) => RETURN_LOOKS_AT[cause])[0];

/**
 * A visit that saw the unit has met what earlier ones asked to go back for; then it asks for its own. What the same day
 * asked for already is not doubled, and nobody goes back for what a later visit has looked at since.
 */
export function returnsAfter(
  { findings, trips, cleanings }: Pick<UnitFile, 'findings' | 'trips' | 'cleanings'>,
  visit: { id: string; on: LocalDate },
  onFile: readonly ReturnOnFile[],
  lookedAt: ReadonlySet<string> | undefined,
  { returnWithinDays }: { returnWithinDays: number },
): { met: string[]; open: ReturnVisit[] } {
  const { on } = visit;
  const earlier = onFile.filter((r) => r.openedOn < on);
  const met = earlier.filter((r) => lookedAt?.has(aspectOf(r.what) ?? '')).map((r) => r.id);
  if (findings.some((f) => f.on > on)) return { met, open: [] };
  // A trip that somebody was called back for once does not call again.
  const calledFor = earlier.filter((r) => r.what === RETURN_WORDS.high_pressure_trip).map((r) => r.openedOn);
  const since = [...cleanings.filter((d) => d < on), ...calledFor].sort().at(-1) ?? '';
  const tripped = trips.some((t) => t > since && t <= on);
  const doubled = (what: string) => onFile.some((r) => r.what === what && (r.visitId === visit.id || (r.open && r.openedOn >= on)));
  return { met, open: returnVisits(on, findings, tripped, returnWithinDays).filter(({ what }) => !doubled(what)) };
}
