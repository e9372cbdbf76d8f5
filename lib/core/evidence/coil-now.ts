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

/** The last reading, and whether a cleaning came after it. */
function lastReading({ latest, cleanings }: Facts): CoilNow['read'] {
  if (!latest) return null;
  const { on, reading, estimate } = latest;
  const cleanedOn = cleanings.at(-1) ?? null;
  return {
    on,
    phase: reading.phase,
    cleanedSince: cleanedOn !== null && (cleanedOn > on || (cleanedOn === on && reading.phase !== 'after')),
    aside: estimate.verdict === 'look_elsewhere' && estimate.causes[0]?.id !== 'coil_fouling',
  };
}

/** The first limit that is more likely than not passed before the next cleaning. */
function limitPassed({ limitDates, next, byWater }: Facts): CoilNow['passes'] {
  if (!next || byWater) return null;
  for (const { limit, quantiles } of limitDates)
    if (quantiles.p50 !== null && quantiles.p50 < next.dueOn) return { name: limit.name, on: quantiles.p50 };
  return null;
}

/**
 * One answer out of what was seen, what was read, what is believed and the date that stands, in the order in which they
 * bind: a dead fan before any coil, the eye before a sum, and a date that nobody kept before one that is yet to come.
 */
export function coilNow(f: Facts): CoilNow {
  const now = { seen: seenCoil(f.grades, f.cleanings), read: lastReading(f), next: f.next, passes: limitPassed(f) };
  return { ...now, verdict: bySight(f, now.seen) ?? byDateOrReading(f, now) };
}

function bySight(f: Facts, seen: SeenCoil | null): CoilVerdict | null {
  if (f.byWater) return 'by_water';
  if (f.fanDead) return 'mend_fan';
  if (!seen || !isStopped('coil', seen.grade) || seen.cleanedOn !== null) return null;
  return seen.phase === 'left' ? 'past_cleaning' : 'clean_now';
}

function byDateOrReading(f: Facts, { seen, read, next, passes }: Omit<CoilNow, 'verdict'>): CoilVerdict {
  if (next && next.dueOn < f.today) return 'overdue';
  if (read?.aside && !read.cleanedSince) return 'look_elsewhere';
  if (f.latest?.estimate.verdict === 'clean_it' && !read?.cleanedSince) return 'clean_now';
  if (!seen && !read) return 'nothing_known';
  return passes ? 'too_late' : 'in_order';
}
