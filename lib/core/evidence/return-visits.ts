import { addDays, type LocalDate } from '../calendar';
import { isSevere, isStopped, type Aspect } from '../findings/grades';
import { lookedForBy } from '../jobs/causes';
import type { FindingFact, UnitFile } from './unit-file';

/** What calls somebody back within days, whatever the rules say. The order is that of urgency. */
export const RETURN_CAUSES = ['ice_block', 'drain_blocked', 'coil_packed', 'high_pressure_trip'] as const;
export type ReturnCause = (typeof RETURN_CAUSES)[number];

const RETURN_WORDS: Record<ReturnCause, string> = {
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

export const returnCause = (cause: ReturnCause): `return:${ReturnCause}` => `return:${cause}`;

/** A job on file whose cause a look can settle. */
export type ReturnOnFile = {
  id: string;
  /** "return:ice_block", "look:drain". */
  cause: string;
  open: boolean;
  visitId: string | null;
  /** The days on which it was found: first when it was opened, then each time it was found again. */
  foundOn: readonly LocalDate[];
};

/** Found again: the job goes on, with a new day to go back by where a rule names one. */
export type FoundAgain = { id: string; note: string; dueOn: LocalDate | null };

/** What has to be looked at before this is met. */
const aspectOf = (cause: string): Aspect | undefined =>
  lookedForBy(cause) ?? RETURN_CAUSES.filter((c) => returnCause(c) === cause).map((c) => RETURN_LOOKS_AT[c])[0];

/**
 * A visit that looked and found it right has met what earlier ones asked for; what it found again goes on as it is. Then
 * it asks for its own. What stands open is not doubled, and nobody goes back for what a later visit has looked at since.
 */
export function returnsAfter(
  { findings, trips, cleanings }: Pick<UnitFile, 'findings' | 'trips' | 'cleanings'>,
  visit: { id: string; on: LocalDate },
  onFile: readonly ReturnOnFile[],
  lookedAt: ReadonlySet<string> | undefined,
  { returnWithinDays }: { returnWithinDays: number },
): { met: string[]; again: FoundAgain[]; open: ReturnVisit[] } {
  const { on } = visit;
  const earlier = onFile.filter((r) => (r.foundOn[0] ?? on) < on);
  const lookedSince = findings.some((f) => f.on > on);
  // A trip that somebody was called back for once does not call again.
  const calledFor = earlier.filter((r) => r.cause === returnCause('high_pressure_trip')).flatMap((r) => r.foundOn.filter((d) => d < on));
  const since = [...cleanings.filter((d) => d < on), ...calledFor].sort().at(-1) ?? '';
  const tripped = trips.some((t) => t.on > since && t.on <= on);
  const asked = lookedSince ? [] : returnVisits(on, findings, tripped, returnWithinDays);
  const again = earlier
    .filter((r) => r.open)
    .flatMap((r): FoundAgain[] => {
      const rule = asked.find((a) => returnCause(a.cause) === r.cause);
      if (rule) return [{ id: r.id, note: rule.note, dueOn: rule.dueOn }];
      const aspect = lookedForBy(r.cause);
      return aspect && stillStopped(findings, on, aspect) ? [{ id: r.id, note: '', dueOn: null }] : [];
    });
  const met = earlier.filter((r) => lookedAt?.has(aspectOf(r.cause) ?? '') && !again.some((a) => a.id === r.id)).map((r) => r.id);
  const stands = (cause: string) => onFile.some((r) => r.cause === cause && !met.includes(r.id) && (r.open || r.visitId === visit.id));
  return { met, again, open: asked.filter(({ cause }) => !stands(returnCause(cause))) };
}

/** As it was left that day, or found where nothing was done to it. */
function stillStopped(findings: readonly FindingFact[], on: LocalDate, aspect: Aspect): boolean {
  const looks = findings.filter((f) => f.on === on && f.aspect === aspect);
  const standing = looks.find((f) => f.phase === 'left') ?? looks.find((f) => f.phase === 'found');
  return standing !== undefined && isStopped(aspect, standing.grade);
}
