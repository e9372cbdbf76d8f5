import type { LocalDate } from '../calendar';
import { toDay } from '../calendar';
import { afterLooks, failureEvidence, type FailureGroup, type FailurePrior, type Inspection } from './failures';
import { isStopped } from '../findings/grades';
import { bestSeason, ENOUGH_DAYS, MUST_GAIN } from './learn';
import type { Season } from './season';

/** The looks at one part of one unit. */
export type WatchedPart = { group: FailureGroup; startedOn: LocalDate; looks: readonly Inspection[]; prior: FailurePrior };

/** Failures without which a year can't be told. */
const ENOUGH_FAILURES = 12;
/** Parts that are gone through: more would tell the same. */
const MOST = 600;

/**
 * The yearly course of one kind of failure over the whole fleet (damp air in summer, cold pipes in winter), where its looks ask for
 * one loudly enough. Pooled over every kind of box: they stand in the same air.
 */
export function learnHumidity(parts: readonly WatchedPart[]): Season | undefined {
  const stride = Math.ceil(parts.length / MOST) || 1;
  const few = parts.filter((_, i) => i % stride === 0);
  const seen = few.flatMap((p) => p.looks);
  if (seen.filter((l) => isStopped(l.aspect, l.grade)).length < ENOUGH_FAILURES) return undefined;
  const days = few.reduce((most, p) => p.looks.reduce((m, l) => Math.max(m, toDay(l.on) - toDay(p.startedOn)), most), 0);
  if (days < ENOUGH_DAYS) return undefined;
  const under = (season: Season) => failureEvidence(few.map((p) => afterLooks(p.group, p.startedOn, p.looks, { ...p.prior, season })));
  const { season, gain } = bestSeason(under);
  return gain > MUST_GAIN ? season : undefined;
}
