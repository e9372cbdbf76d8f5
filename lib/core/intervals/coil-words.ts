import type { LocalDate } from '../calendar';
import { counted } from '../wording/counted';
import { daysSinceClean, type Exposure, type UnitHistory } from '../fouling';
import type { CoilEvidence, CoilFinding } from './coil-findings';
import type { Guard, Move } from './guards';
import { wantedWeeks, type Targets } from './optimise';
import type { UnitPolicy } from './policy';
import { chance, dayInWords, fromTo, gradeWord, where } from './words';
import { lower } from '../wording/lower';

export type CoilStory = {
  history: UnitHistory;
  exposure: Exposure;
  /** Whether the kitchen's other units have had their say in what is usual. */
  kitchenHeard: boolean;
  settings: UnitPolicy;
  currency: string;
  evidence: CoilEvidence;
  goal: Targets;
  packed: boolean;
  tripped: boolean;
};

function met(f: CoilFinding | undefined): string {
  if (!f) return '';
  const grade = gradeWord('coil', f.grade);
  return f.daysSinceClean === null ? `${grade} on ${dayInWords(f.on)}` : `${grade} at ${counted(f.daysSinceClean, 'day')}`;
}

/** "Bare at 84 days and filmed at 85": the clean findings that allow a longer interval, oldest first. */
function metRunning(findings: readonly CoilFinding[]): string {
  return [...findings]
    .reverse()
    .map((f, i) => (i === 0 ? met(f) : lower(met(f)).replace(/ days?$/, '')))
    .join(' and ');
}

/** What would change it again. */
export const undoneBy = (weeks: number, from: number): string =>
  weeks < from ? 'clear looks would lengthen it again' : 'a worse find would shorten it again';

/** Why a rule moves, in one sentence with its numbers, and what would change it. */
export function sentence(story: CoilStory, from: number, move: Move): string {
  const { evidence: e } = story;
  const change = `so cleaning moves ${fromTo(from, move.weeks)}; ${undoneBy(move.weeks, from)}`;
  const place = where(story.exposure.placement);
  const here = story.kitchenHeard ? ' here' : '';
  const worst = e.findings.find((f) => f.grade === 'packed');
  if (story.packed)
    return `${met(worst ?? e.findings[0]) || 'Packed'}; coils ${place}${here} usually reach that in ${e.usualPackedDays}, ${change}.`;
  if (story.tripped) {
    const on = e.trips[0] as LocalDate;
    const days = daysSinceClean(story.history, on);
    return `Tripped on high pressure ${days === null ? `on ${dayInWords(on)}` : `${counted(days, 'day')} after cleaning`}, ${change}.`;
  }
  const seen = move.weeks > from ? metRunning(e.findings.slice(0, story.settings.cleanFindings)) : met(e.findings[0]) || 'By its readings';
  return `${seen}; ${because(story, move)}, ${change}.`;
}

/** Why a rule stays although the coil was found stopped up: what it was found to bear, and what keeps it where it is. */
export function staysSentence(story: CoilStory, weeks: number, guard: Guard | null): string {
  const { evidence: e, goal, settings } = story;
  const stays = `so cleaning stays at every ${each(weeks)}`;
  const seen = met(e.findings[0]);
  if (guard === 'minimum') return `${seen}; the shop goes no shorter than that, ${stays}.`;
  const bears = because(story, { weeks, guard: null });
  const near =
    guard === 'dead_band'
      ? `, and what differs by less than ${spell(Math.max(1, Math.round(settings.deadBand * weeks)))} is left alone`
      : guard === 'needs_clean_findings'
        ? '; longer it gets only after a clean find'
        : goal.cost !== null && goal.cost.weeks < weeks
          ? ''
          : ', which is no sooner than now';
  return `${seen} is what this interval reckons with: ${bears}${near}, ${stays}.`;
}

const spell = (weeks: number) => (weeks === 1 ? 'a week' : `${weeks} weeks`);
const each = (weeks: number) => (weeks === 1 ? 'week' : `${weeks} weeks`);

/** Why a rule is shorter than what costs least: visits come after their dates. */
function lateness({ goal, settings }: CoilStory, { weeks }: Move): string {
  const shorter = goal.cost !== null && weeks < goal.cost.weeks && weeks === Math.floor(wantedWeeks(goal, settings));
  return shorter ? `, and visits come about ${counted(Math.round(settings.lateDays), 'day')} late` : '';
}

function because(story: CoilStory, move: Move): string {
  const { evidence: e, goal, currency } = story;
  if (move.guard === 'contract' || move.guard === 'warranty') return `the ${move.guard} asks for no longer than ${spell(move.weeks)}`;
  if (move.guard === 'maximum') return `the shop goes no longer than ${spell(move.weeks)}`;
  if (goal.cost !== null && goal.cost.weeks * 7 <= goal.riskDays)
    return `counting energy, breakdowns and comebacks${goal.cost.rides ? ', and that somebody comes that week anyway' : ''}, cleaning every ${each(goal.cost.weeks)} costs least${lateness(story, move)}`;
  if (e.riskDays === null) return `${lower(goal.riskLimit.name)} is not expected to reach its limit`;
  const dear =
    goal.riskCost >= 1
      ? `, and keeping to that costs about ${Math.round(goal.riskCost)} ${currency} more a cycle than cost alone would`
      : '';
  return goal.risk.of === 'packed'
    ? `the coil has a ${chance(goal.risk.chance)} chance of being packed by day ${e.riskDays}${dear}`
    : `${lower(goal.riskLimit.name)} has a ${chance(goal.risk.chance)} chance of passing its limit by day ${e.riskDays}${dear}`;
}
