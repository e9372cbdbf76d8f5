import type { LocalDate } from '../calendar';
import { GRADES, gradeIndex, type CoilGrade } from '../findings/grades';
import {
  afterCleaning,
  asIfToday,
  daysSinceClean,
  usualDays,
  type FoulingPosterior,
  type Hyper,
  type Limit,
  type Phase,
  type UnitEvent,
  type UnitHistory,
} from '../fouling';
import { currentWeeks, type Move, type Timing } from './guards';
import { targets, type Targets } from './optimise';
import type { Bounds, ShopPolicy } from './policy';
import { revise, type Revision } from './revision';
import { chance, fromTo, gradeWord, lower, where } from './words';

export type CoilRevisionInput = Timing & {
  history: UnitHistory;
  /** Belief after the visit; its own evidence must be that of `history`. */
  posterior: FoulingPosterior;
  hyper: Hyper;
  settings: ShopPolicy;
  /** The unit's own limits from the condenser model; the shop's where they are left out. */
  limits?: readonly Limit[];
  failureLimit?: Limit;
  bounds?: Bounds;
  locked?: boolean;
  /** Day of the last revision: only later evidence counts as new. Left out: everything since the cleaning before the last. */
  lastRevisedOn?: LocalDate | null;
};

/** With `deepClean`: a sentence saying that cleaning no longer brings this coil back, when that is so. */
export type CoilRevision = Revision<CoilEvidence> & { deepClean?: string };

/** A finding on the coil as it was met, worst look of a day. */
export type CoilFinding = { on: LocalDate; grade: CoilGrade; daysSinceClean: number | null };

export type CoilEvidence = {
  findings: CoilFinding[];
  trips: LocalDate[];
  cleanRunning: number;
  riskDays: number | null;
  riskLimit: string;
  /** Cheapest whole weeks; null = no finite optimum. */
  cheapestWeeks: number | null;
  /** Days in which coils of this exposure usually pack. */
  usualPackedDays: number;
  rate: FoulingPosterior['rate'];
  lnK: FoulingPosterior['lnK'];
};

/** Coils as met, newest first; what was seen only after a cleaning does not count as met. */
export function coilFindings(history: UnitHistory): CoilFinding[] {
  const worst = new Map<LocalDate, CoilGrade>();
  for (const e of history.events) {
    if (e.kind !== 'coil' || e.phase !== 'before') continue;
    const seen = worst.get(e.on);
    if (seen === undefined || gradeIndex('coil', e.grade) > gradeIndex('coil', seen)) worst.set(e.on, e.grade);
  }
  return [...worst]
    .sort(([a], [b]) => (a < b ? 1 : -1))
    .map(([on, grade]) => ({ on, grade, daysSinceClean: daysSinceClean(history, on) }));
}

function newSince(input: CoilRevisionInput): LocalDate {
  if (input.lastRevisedOn) return input.lastRevisedOn;
  let previous = '';
  for (const e of input.history.events)
    if (e.kind === 'cleaning' && e.on < input.lastDoneOn && e.on > previous) previous = e.on;
  return previous as LocalDate;
}

const isEvidence = (e: UnitEvent): boolean =>
  e.kind === 'coil' || e.kind === 'trip' || (e.kind === 'reading' && e.setAside === undefined);

/** The next rule for cleaning a coil, with its reason. Pure: the same evidence always gives the same rule. */
export function reviseCoilRule(input: CoilRevisionInput): CoilRevision {
  const { history, posterior, hyper, settings } = input;
  const since = newSince(input);
  const fresh = history.events.filter((e) => e.on > since && isEvidence(e));
  const goal = cautious(input);
  const findings = coilFindings(history);
  const trips = history.events
    .filter((e) => e.kind === 'trip')
    .map((e) => e.on)
    .sort()
    .reverse();
  const cleanRunning = countClean(findings, trips, settings.cleanGrade, (currentWeeks(input) * 7) / 2);
  const packed = fresh.some((e) => e.kind === 'coil' && e.grade === 'packed');
  const tripped = fresh.some((e) => e.kind === 'trip');
  const evidence: CoilEvidence = {
    findings: findings.slice(0, 4),
    trips: trips.slice(0, 4),
    cleanRunning,
    riskDays: Number.isFinite(goal.riskDays) ? Math.floor(goal.riskDays) : null,
    riskLimit: goal.riskLimit.name,
    cheapestWeeks: goal.cost?.weeks ?? null,
    usualPackedDays: Math.round(usualDays(posterior, hyper, hyper.grades.thresholds[3])),
    rate: posterior.rate,
    lnK: posterior.lnK,
  };
  const { currentRule, anchor, anchorDate, lastDoneOn, preferredWeekday } = input;
  const timing: Timing = {
    currentRule,
    anchor,
    lastDoneOn,
    ...(anchorDate ? { anchorDate } : {}),
    preferredWeekday: preferredWeekday ?? null,
  };
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
        wantedWeeks: Math.min(goal.riskDays / 7, goal.cost?.weeks ?? Infinity),
        severe: packed || tripped,
        cleanRunning,
      },
    },
    evidence,
    (from, move) => sentence(input, evidence, goal, { packed, tripped }, from, move),
  );
  const deepClean = fresh.length > 0 ? advice(posterior, goal, settings) : null;
  return deepClean === null ? revision : { ...revision, deepClean };
}

/** More frequent cleaning cannot mend what cleaning does not bring back; say so instead of only shortening. */
function advice({ residue }: FoulingPosterior, goal: Targets, settings: ShopPolicy): string | null {
  if (residue.mean > settings.deepCleanShare * goal.riskLimit.lnK) return null;
  const lost = (lnK: number) => Math.round(100 * (1 - Math.exp(Math.min(0, lnK))));
  const band = `${lost(residue.mean)} % (${lost(residue.mean + 1.28 * residue.sd)}–${lost(residue.mean - 1.28 * residue.sd)})`;
  return `Even just cleaned, this condenser has lost ${band} of its conductance, so cleaning it more often will not bring that back: wash it right through, or look for another cause.`;
}

/** Today's findings as they are, and every milder way they could have been. */
function milder(posterior: FoulingPosterior): UnitEvent[][] {
  const { today } = posterior.state;
  const capped = (phase: Phase, events: UnitEvent[]): UnitEvent[][] => {
    const worst = Math.max(
      0,
      ...events.map((e) => (e.kind === 'coil' && e.phase === phase ? gradeIndex('coil', e.grade) : 0)),
    );
    return Array.from({ length: worst + 1 }, (_, cap) =>
      events.map((e) =>
        e.kind === 'coil' && e.phase === phase && gradeIndex('coil', e.grade) > cap
          ? { ...e, grade: (GRADES.coil[cap] as { grade: CoilGrade }).grade }
          : e,
      ),
    );
  };
  return capped('before', today).flatMap((events) => capped('after', events));
}

/**
 * Targets that a worse finding can never lengthen. A finding can explain away part of another (a coil left dirty makes
 * the next deposit look smaller), so the shortest interval that today's findings or any milder ones ask for is taken.
 */
function cautious(input: CoilRevisionInput): Targets {
  const { posterior, hyper, settings } = input;
  const limits = input.limits ?? settings.limits;
  const failureLimit = input.failureLimit ?? settings.failureLimit;
  const of = (p: FoulingPosterior) => targets(afterCleaning(p), settings, limits, failureLimit);
  const all = milder(posterior);
  // The last is today as it was; the rest need the belief replayed.
  return all.slice(0, -1).reduce((best, today) => {
    const other = of(asIfToday(posterior, today, hyper));
    const cost =
      best.cost && other.cost
        ? other.cost.weeks < best.cost.weeks
          ? other.cost
          : best.cost
        : (best.cost ?? other.cost);
    return { ...best, riskDays: Math.min(best.riskDays, other.riskDays), cost };
  }, of(posterior));
}

/** Clean findings running. A look sooner than half an interval after a cleaning proves nothing when it is clean. */
function countClean(
  findings: readonly CoilFinding[],
  trips: readonly LocalDate[],
  cleanGrade: CoilGrade,
  soon: number,
): number {
  let n = 0;
  let later: LocalDate | null = null;
  for (const f of findings) {
    if (gradeIndex('coil', f.grade) > gradeIndex('coil', cleanGrade)) break;
    // A trip on the day of this finding, or between it and the next, spoils the run from here back.
    if (trips.some((t) => t >= f.on && (later === null || t < later))) break;
    later = f.on;
    if (f.daysSinceClean === null || f.daysSinceClean >= soon) n++;
  }
  return n;
}

function met(f: CoilFinding | undefined): string {
  if (!f) return '';
  const grade = gradeWord('coil', f.grade);
  return f.daysSinceClean === null ? `${grade} on ${f.on}` : `${grade} at ${f.daysSinceClean} days`;
}

/** "Bare at 84 days and filmed at 85": the clean findings that allow a longer interval, oldest first. */
function metRunning(findings: readonly CoilFinding[]): string {
  return [...findings]
    .reverse()
    .map((f, i) => (i === 0 ? met(f) : lower(met(f)).replace(/ days$/, '')))
    .join(' and ');
}

function sentence(
  input: CoilRevisionInput,
  e: CoilEvidence,
  goal: Targets,
  bad: { packed: boolean; tripped: boolean },
  from: number,
  move: Move,
): string {
  const change = `so cleaning moves ${fromTo(from, move.weeks)}`;
  const place = where(input.posterior.exposure.placement);
  const here = input.posterior.fromKitchen.some((m) => m !== 0) ? ' here' : '';
  const worst = e.findings.find((f) => f.grade === 'packed');
  if (bad.packed)
    return `${met(worst ?? e.findings[0]) || 'Packed'}; coils ${place}${here} usually reach that in ${e.usualPackedDays}, ${change}.`;
  if (bad.tripped) {
    const on = e.trips[0] as LocalDate;
    const days = daysSinceClean(input.history, on);
    return `Tripped on high pressure ${days === null ? `on ${on}` : `${days} days after cleaning`}, ${change}.`;
  }
  const seen =
    move.weeks > from
      ? metRunning(e.findings.slice(0, input.settings.cleanFindings))
      : met(e.findings[0]) || 'By its readings';
  return `${seen}; ${because(input, e, goal, move)}, ${change}.`;
}

function because(input: CoilRevisionInput, e: CoilEvidence, goal: Targets, move: Move): string {
  if (move.guard === 'contract' || move.guard === 'warranty')
    return `the ${move.guard} asks for no longer than ${move.weeks} weeks`;
  if (move.guard === 'maximum') return `the shop goes no longer than ${move.weeks} weeks`;
  if (goal.cost !== null && goal.cost.weeks * 7 <= goal.riskDays)
    return `counting energy and breakdowns, cleaning every ${goal.cost.weeks} weeks costs least`;
  if (e.riskDays === null) return `${lower(goal.riskLimit.name)} is not expected to reach its limit`;
  return `${lower(goal.riskLimit.name)} has a ${chance(input.settings.risk)} chance of passing its limit by day ${e.riskDays}`;
}

/** First rule for a unit with no history, from its exposure (or a cautious start when even that says never). */
export function initialCoilWeeks(
  posterior: FoulingPosterior,
  settings: ShopPolicy,
  limits: readonly Limit[] = settings.limits,
  failureLimit: Limit = settings.failureLimit,
): number {
  const goal = targets(afterCleaning(posterior), settings, limits, failureLimit);
  const weeks = Math.floor(
    Math.min(
      goal.riskDays / 7,
      goal.cost?.weeks ?? Infinity,
      settings.maxWeeks.coil_cleaning,
      settings.maxWeeksWithoutHistory,
    ),
  );
  return Math.max(settings.minWeeks, Math.min(settings.minWeeksUnlessSevere, settings.maxWeeks.coil_cleaning), weeks);
}
