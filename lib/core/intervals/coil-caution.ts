import { GRADES, gradeIndex, type CoilGrade } from '../findings/grades';
import {
  afterCleaning,
  afterNextCleaning,
  asIfToday,
  meanDeposit,
  type FoulingPosterior,
  type Hyper,
  type Limit,
  type Phase,
  type UnitEvent,
} from '../fouling';
import type { CleaningCost } from './choose';
import type { WashThrough } from './deep';
import { targets, wantedWeeks, type Targets } from './optimise';
import type { UnitPolicy } from './policy';

/** Today's findings as they are, and every milder way they could have been. */
function milder(posterior: FoulingPosterior): UnitEvent[][] {
  const { today } = posterior.state;
  const capped = (phase: Phase, events: UnitEvent[]): UnitEvent[][] => {
    const worst = Math.max(0, ...events.map((e) => (e.kind === 'coil' && e.phase === phase ? gradeIndex('coil', e.grade) : 0)));
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
export function cautious(
  posterior: FoulingPosterior,
  hyper: Hyper,
  settings: UnitPolicy,
  limits: readonly Limit[],
  failureLimit: Limit,
  cleaning?: CleaningCost,
): Targets {
  const of = (p: FoulingPosterior) => targets(afterCleaning(p), settings, limits, failureLimit, hyper, cleaning);
  const all = milder(posterior);
  // The last is today as it was; the rest need the belief replayed.
  return all.slice(0, -1).reduce((best, today) => {
    const other = of(asIfToday(posterior, today, hyper));
    const cost = best.cost && other.cost ? (other.cost.weeks < best.cost.weeks ? other.cost : best.cost) : (best.cost ?? other.cost);
    const { riskDays, risk } = other.riskDays < best.riskDays ? other : best;
    return { ...best, riskDays, risk, cost };
  }, of(posterior));
}

/** More frequent cleaning cannot mend what cleaning does not bring back; say so instead of only shortening. */
export function advice(
  posterior: FoulingPosterior,
  goal: Targets,
  { settings, currency }: { settings: UnitPolicy; currency: string },
  wash: WashThrough | null,
): string | null {
  const { residue } = posterior;
  const fresh = afterCleaning(posterior);
  // All that is there just after a cleaning, whether or not another one might take some of it; and how much that will be next time.
  const left = meanDeposit(fresh);
  const days = 7 * wantedWeeks(goal, settings);
  const stays = Number.isFinite(days) ? Math.min(left, meanDeposit(afterNextCleaning(fresh, days))) : left;
  const lost = (lnK: number) => Math.round(100 * (1 - Math.exp(Math.min(0, lnK))));
  const band = `${lost(-left)} % (${lost(1.28 * residue.sd - left)}–${lost(-1.28 * residue.sd - left)})`;
  const even = `Even just cleaned, this condenser has lost ${band} of its heat transfer`;
  if (stays >= -settings.deepCleanShare * goal.riskLimit.lnK)
    return `${even}, so cleaning it more often will not bring that back: wash it right through, or look for another cause.`;
  if (!wash) return null;
  return `${even}: that costs about ${Math.round(wash.costPerYear)} ${currency} a year in cleanings and energy, so washing it right through next time pays for itself within ${Math.ceil(wash.paysBackDays / 7)} weeks.`;
}
