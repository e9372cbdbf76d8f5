import type { LocalDate } from '../calendar';
import { isStopped, type CoilGrade } from '../findings/grades';
import type { UnitEvidenceShown } from './shown';

/** What is to be done about a coil, one answer: the rest of what is on file is read under it. */
export const COIL_VERDICTS = [
  'mend_fan',
  'past_cleaning',
  'clean_now',
  'overdue',
  'look_elsewhere',
  'too_late',
  'in_order',
  'nothing_known',
  'by_water',
] as const;
export type CoilVerdict = (typeof COIL_VERDICTS)[number];

export type SeenCoil = {
  on: LocalDate;
  grade: CoilGrade;
  /** It was left so after the work, or only met so. */
  phase: 'found' | 'left';
  /** When it was cleaned at that visit or since; null while it stands as seen. */
  cleanedOn: LocalDate | null;
};

export type CoilNow = {
  verdict: CoilVerdict;
  seen: SeenCoil | null;
  /** The last reading; `cleanedSince` says nothing of today's coil. */
  read: { on: LocalDate; phase: string; cleanedSince: boolean; aside: boolean } | null;
  /** The next cleaning, and the visit it stands on. */
  next: { dueOn: LocalDate; visitId: string | null } | null;
  /** The first of its own limits that it has more likely than not passed by then. */
  passes: { name: string; on: LocalDate } | null;
};

type Facts = Pick<UnitEvidenceShown, 'today' | 'grades' | 'cleanings' | 'latest' | 'limitDates'> & {
  byWater: boolean;
  fanDead: boolean;
  next: CoilNow['next'];
};

/** Of one day the look after the work stands. */
const later = (a: { on: LocalDate; phase: string }, b: { on: LocalDate; phase: string }) =>
  a.on === b.on ? (a.phase === 'left' ? 1 : 0) - (b.phase === 'left' ? 1 : 0) : a.on < b.on ? -1 : 1;

function seenCoil(grades: Facts['grades'], cleanings: readonly LocalDate[]): SeenCoil | null {
  const last = [...grades].sort(later).at(-1);
  if (!last) return null;
  const cleanedOn = cleanings.filter((c) => (last.phase === 'left' ? c > last.on : c >= last.on)).at(-1) ?? null;
  return { on: last.on, grade: last.grade as CoilGrade, phase: last.phase, cleanedOn };
}

/**
 * One answer out of what was seen, what was read, what is believed and the date that stands, in the order in which they
 * bind: a dead fan before any coil, the eye before a sum, and a date that nobody kept before one that is yet to come.
 */
export function coilNow(f: Facts): CoilNow {
  const seen = seenCoil(f.grades, f.cleanings);
  const lastCleaned = f.cleanings.at(-1) ?? null;
  const read = f.latest && {
    on: f.latest.on,
    phase: f.latest.reading.phase,
    cleanedSince:
      lastCleaned !== null && (lastCleaned > f.latest.on || (lastCleaned === f.latest.on && f.latest.reading.phase !== 'after')),
    aside: f.latest.estimate.verdict === 'look_elsewhere' && f.latest.estimate.causes[0]?.id !== 'coil_fouling',
  };
  const crossed = f.limitDates.find((l) => l.quantiles.p50 !== null && f.next !== null && l.quantiles.p50 < f.next.dueOn);
  const passes = crossed?.quantiles.p50 ? { name: crossed.limit.name, on: crossed.quantiles.p50 } : null;
  const base = { seen, read, next: f.next, passes };
  const closed = seen !== null && isStopped('coil', seen.grade) && seen.cleanedOn === null;
  const verdict = ((): CoilVerdict => {
    if (f.byWater) return 'by_water';
    if (f.fanDead) return 'mend_fan';
    if (closed && seen.phase === 'left') return 'past_cleaning';
    if (closed) return 'clean_now';
    if (f.next && f.next.dueOn < f.today) return 'overdue';
    if (read?.aside && !read.cleanedSince) return 'look_elsewhere';
    if (f.latest?.estimate.verdict === 'clean_it' && !read?.cleanedSince) return 'clean_now';
    if (!seen && !read) return 'nothing_known';
    return passes ? 'too_late' : 'in_order';
  })();
  return { ...base, verdict };
}
