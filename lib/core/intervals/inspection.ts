import { toDay, type LocalDate } from '../calendar';
import { UNIT_KIND_LABEL } from '../equipment/build';
import { ASPECT_INFO, gradeIndex, isClean, isSevere } from '../findings/grades';
import { seasonFactor, type FailurePosterior, type Inspection } from '../fouling';
import { looksAt, type InspectionTask } from '../tasks';
import { counted } from '../wording/counted';
import { hiddenFailure } from './closed-forms';
import { currentWeeks, timingOf, type Timing } from './guards';
import type { Bounds, UnitPolicy } from './policy';
import { undoneBy } from './coil-words';
import { revise, type Revision } from './revision';
import { dayInWords, fromTo, gradeWord, spanInWords } from './words';

export type InspectionRevisionInput = Timing & {
  task: InspectionTask;
  /** Days on which something else on the low side was found not to work, with what it was. */
  broken?: readonly { on: LocalDate; what: string }[];
  /** All looks at this aspect, in any order. */
  looks: readonly Inspection[];
  posterior: FailurePosterior;
  settings: UnitPolicy;
  bounds?: Bounds;
  locked?: boolean;
  lastRevisedOn?: LocalDate | null;
};

export type InspectionEvidence = {
  looks: Inspection[];
  cleanRunning: number;
  /** Mean days to a failure, and the interval that costs least. */
  meanDays: number;
  cheapestDays: number | null;
  rate: FailurePosterior['rate'];
};

/** The next rule for looking at a drain or an evaporator, with its reason. */
export function reviseInspectionRule(input: InspectionRevisionInput): Revision<InspectionEvidence> {
  const { posterior, settings } = input;
  const aspect = looksAt(input.task);
  const looks = worstByDay(input.looks.filter((l) => l.aspect === aspect));
  const since = input.lastRevisedOn ?? '';
  const recent = looks.filter((l) => l.on > since);
  const newest = recent.length > 0 && input.lastRevisedOn ? recent : looks.slice(0, 1).filter((l) => l.on > since);
  const severe = newest.find((l) => isSevere(aspect, l.grade));
  const dirty = looks.findIndex((l) => !isClean(aspect, l.grade));
  // A dead fan keeps a coil from icing where it can be seen: no look up to then allows a longer interval.
  const lastBroken = (input.broken ?? []).reduce<{ on: LocalDate; what: string } | null>((a, b) => (a && a.on >= b.on ? a : b), null);
  const sound = looks.filter((l) => lastBroken === null || l.on > lastBroken.on).length;
  const cleanRunning = Math.min(dirty < 0 ? looks.length : dirty, sound);
  const { best, times } = bestLook(input);
  const timing = timingOf(input);
  const evidence: InspectionEvidence = {
    looks: looks.slice(0, 4),
    cleanRunning,
    meanDays: posterior.meanDays,
    cheapestDays: best?.days ?? null,
    rate: posterior.rate,
  };
  return revise(
    {
      timing,
      task: input.task,
      settings,
      bounds: input.bounds ?? {},
      locked: input.locked ?? false,
      hasNewEvidence: newest.length > 0,
      modelVersion: posterior.modelVersion,
      situation: {
        currentWeeks: currentWeeks(timing),
        wantedWeeks: best ? best.days / 7 : Infinity,
        severe: severe !== undefined,
        cleanRunning,
      },
    },
    evidence,
    (from, move) => {
      const { subject: what, within } = ASPECT_INFO[aspect];
      const change = `so looking at it moves ${fromTo(from, move.weeks)}; ${undoneBy(move.weeks, from)}`;
      const mean = spanInWords(posterior.meanDays / times) + (Math.abs(Math.log(times)) > 0.1 ? ' at this time of year' : '');
      const kind = UNIT_KIND_LABEL[posterior.group.kind].toLowerCase();
      if (severe)
        return `${what} found ${gradeWord(aspect, severe.grade).toLowerCase()} on ${dayInWords(severe.on)}; this ${kind} is now expected to do so about every ${mean}, ${change}.`;
      // A clean look never asks for more looking; what others of its kind taught does.
      if (cleanRunning > 0 && move.weeks < from && move.guard === null)
        return `Clean at the last look, but ${within} of ${article(kind)} ${kind} is expected to give trouble about every ${mean}, and unseen that costs more than looking, ${change}.`;
      const seen =
        move.weeks > from
          ? cleanRunning === 1
            ? 'Clean at the last look'
            : `${cleanRunning} clean looks in a row`
          : `${what} ${gradeWord(aspect, looks[0]?.grade ?? '').toLowerCase()} ${looks[0] ? `on ${dayInWords(looks[0].on)}` : ''}`;
      const rail =
        move.guard === 'contract' || move.guard === 'warranty'
          ? `the ${move.guard} asks for no longer than ${counted(move.weeks, 'week')}`
          : `trouble is expected about every ${mean}`;
      return `${seen}; ${rail}, ${change}.`;
    },
  );
}

/** The interval that costs least from the last look on, and how many times as often as over the year failures come in it. */
function bestLook({ posterior, settings, lastDoneOn }: InspectionRevisionInput) {
  const { season } = posterior.prior;
  let times = 1;
  let best = hiddenFailure(posterior.rate.mean, settings.inspectionCost, settings.hiddenFailureCostPerDay);
  // The interval says which months it spans, and those which interval: a few rounds settle it to a day or so.
  for (let round = 0; season && best && round < 4; round++) {
    times = seasonFactor(season, toDay(lastDoneOn), best.days);
    best = hiddenFailure(posterior.rate.mean * times, settings.inspectionCost, settings.hiddenFailureCostPerDay);
  }
  return { best, times };
}

/** Newest first, one a day, the worst of the day. */
function worstByDay(looks: readonly Inspection[]): Inspection[] {
  const byDay = new Map<LocalDate, Inspection>();
  for (const l of looks) {
    const seen = byDay.get(l.on);
    if (!seen || gradeIndex(l.aspect, l.grade) > gradeIndex(l.aspect, seen.grade)) byDay.set(l.on, l);
  }
  return [...byDay.values()].sort((a, b) => (a.on < b.on ? 1 : -1));
}

const article = (noun: string) => (/^[aeiou]/i.test(noun) ? 'an' : 'a');
