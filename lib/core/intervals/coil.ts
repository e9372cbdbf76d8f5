import { daysBetween, type LocalDate } from '../calendar';
import { gradeIndex, isStopped } from '../findings/grades';
import { afterCleaning, usualDays, type FoulingPosterior, type Hyper, type Limit, type UnitEvent, type UnitHistory } from '../fouling';
import { advice, cautious } from './coil-caution';
import { coilFindings, countClean, type CoilEvidence } from './coil-findings';
import { washThrough } from './deep';
import { sentence, staysSentence, type CoilStory } from './coil-words';
import { currentWeeks, timingOf, type Timing } from './guards';
import { targets, wantedWeeks } from './optimise';
import { sharedTrip } from './shared-trip';
import type { Bounds, UnitPolicy } from './policy';
import { revise, type Revision } from './revision';

export type CoilRevisionInput = Timing & {
  history: UnitHistory;
  /** Belief after the visit; its own evidence must be that of `history`. */
  posterior: FoulingPosterior;
  hyper: Hyper;
  settings: UnitPolicy;
  /** ISO 4217 code of the shop's money, for the reason. */
  currency: string;
  /** The unit's own limits from the condenser model; the shop's where they are left out. */
  limits?: readonly Limit[];
  failureLimit?: Limit;
  bounds?: Bounds;
  locked?: boolean;
  /** Other days on which somebody is due in this kitchen: a date that can ride along is cheaper. */
  alsoDue?: readonly LocalDate[];
  /** Day of the last revision: only later evidence counts as new. Left out: everything since the cleaning before the last. */
  lastRevisedOn?: LocalDate | null;
};

/**
 * With `deepClean`: a sentence saying that cleaning no longer brings this coil back, when that is so. With `stays`: why a
 * coil found stopped up moved nothing, when that is so.
 */
export type CoilRevision = Revision<CoilEvidence> & { deepClean?: string; stays?: string };

function newSince(input: CoilRevisionInput): LocalDate {
  if (input.lastRevisedOn) return input.lastRevisedOn;
  let previous = '';
  for (const e of input.history.events) if (e.kind === 'cleaning' && e.on < input.lastDoneOn && e.on > previous) previous = e.on;
  return previous as LocalDate;
}

const isEvidence = (e: UnitEvent): boolean =>
  e.kind === 'coil' || e.kind === 'change' || e.kind === 'trip' || (e.kind === 'reading' && e.setAside === undefined);

/** A trip speaks of the coil unless another cause was found, or the coil was seen to be open on the very day. */
function ofFouling(trip: Extract<UnitEvent, { kind: 'trip' }>, history: UnitHistory): boolean {
  if (trip.cause !== undefined && trip.cause !== 'coil') return false;
  const met = history.events.flatMap((e) =>
    e.kind === 'coil' && e.phase === 'before' && e.on === trip.on ? [gradeIndex('coil', e.grade)] : [],
  );
  return met.length === 0 || Math.max(...met) > gradeIndex('coil', 'filmed');
}

/** Why a coil met stopped up since then moved nothing, where nothing else says so. */
function staysWhy(story: CoilStory, since: LocalDate, r: Revision<CoilEvidence>): Pick<CoilRevision, 'stays'> {
  const [found] = story.evidence.findings;
  if (r.changed || r.wouldHave || !found || found.on <= since || !isStopped('coil', found.grade)) return {};
  return { stays: staysSentence(story, r.weeks, r.guard) };
}

/** The next rule for cleaning a coil, with its reason. Pure: the same evidence always gives the same rule. */
export function reviseCoilRule(input: CoilRevisionInput): CoilRevision {
  const { history, posterior, hyper, settings } = input;
  const since = newSince(input);
  const fresh = history.events.filter((e) => e.on > since && isEvidence(e));
  const alsoDue = (input.alsoDue ?? []).map((d) => daysBetween(input.lastDoneOn, d)).filter((d) => d > 0);
  const failureLimit = input.failureLimit ?? settings.failureLimit;
  const goal = cautious(posterior, hyper, settings, input.limits ?? settings.limits, failureLimit, sharedTrip(settings, alsoDue));
  const findings = coilFindings(history);
  const trips = history.events
    .flatMap((e) => (e.kind === 'trip' && ofFouling(e, history) ? [e.on] : []))
    .sort()
    .reverse();
  const cleanRunning = countClean(findings, trips, settings.cleanGrade, (currentWeeks(input) * 7) / 2);
  const packed = fresh.some((e) => e.kind === 'coil' && e.grade === 'packed');
  const tripped = fresh.some((e) => e.kind === 'trip' && ofFouling(e, history));
  const evidence: CoilEvidence = {
    findings: findings.slice(0, 4),
    trips: trips.slice(0, 4),
    cleanRunning,
    riskDays: Number.isFinite(goal.riskDays) ? Math.floor(goal.riskDays) : null,
    riskLimit: goal.risk.of === 'packed' ? 'packed' : goal.riskLimit.name,
    cheapestWeeks: goal.cost?.weeks ?? null,
    usualPackedDays: Math.round(usualDays(posterior, hyper, hyper.grades.thresholds[3])),
    rate: posterior.rate,
    lnK: posterior.lnK,
  };
  const story = {
    history,
    settings,
    currency: input.currency,
    evidence,
    goal,
    packed,
    tripped,
    exposure: posterior.exposure,
    kitchenHeard: posterior.fromKitchen.some((m) => m !== 0),
  };
  const timing = timingOf(input);
  const revision = revise(
    {
      timing,
      task: 'coil_cleaning',
      settings,
      bounds: input.bounds ?? {},
      locked: input.locked ?? false,
      hasNewEvidence: fresh.length > 0,
      modelVersion: posterior.modelVersion,
      situation: {
        currentWeeks: currentWeeks(timing),
        wantedWeeks: wantedWeeks(goal, settings),
        severe: packed || tripped,
        cleanRunning,
      },
    },
    evidence,
    (from, move) => sentence(story, from, move),
  );
  const stays = staysWhy(story, since, revision);
  const deepClean = fresh.length > 0 ? advice(posterior, goal, input, washThrough(history, posterior, settings, failureLimit)) : null;
  return { ...revision, ...stays, ...(deepClean === null ? {} : { deepClean }) };
}

/** First rule for a unit with no history, from its exposure (or a cautious start when even that says never). */
export function initialCoilWeeks(
  posterior: FoulingPosterior,
  settings: UnitPolicy,
  limits: readonly Limit[] = settings.limits,
  failureLimit: Limit = settings.failureLimit,
): number {
  const goal = targets(afterCleaning(posterior), settings, limits, failureLimit);
  const weeks = Math.floor(Math.min(wantedWeeks(goal, settings), settings.maxWeeks.coil_cleaning, settings.maxWeeksWithoutHistory));
  return Math.max(settings.minWeeks, Math.min(settings.minWeeksUnlessSevere, settings.maxWeeks.coil_cleaning), weeks);
}
