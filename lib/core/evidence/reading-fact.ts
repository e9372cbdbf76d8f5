import {
  cleanPrior,
  updateBaseline,
  type CauseId,
  type CleanBaseline,
  type CondenserUnit,
  type Estimate,
  type EstimateOk,
  type Figure,
  type Verdict,
} from '../condenser/api';
import { Z80 } from '../condenser/bands';
import type { LocalDate } from '../calendar';

/** What is kept of one estimate for learning: enough to bring it to a later, better baseline. */
export type ReadingFact = {
  /** Epoch milliseconds, and the kitchen's date. */
  at: number;
  on: LocalDate;
  phase: 'before' | 'after' | 'log';
  /** Rise at design load, K; null when the reading could not say. */
  designRiseK: Figure | null;
  verdict: Verdict;
  leading: CauseId | null;
  /** The condenser fan was found dead at that look. */
  fanFailed: boolean;
};

export function readingFact(
  estimate: Estimate,
  at: { at: number; on: LocalDate; phase: ReadingFact['phase']; fanFailed: boolean },
): ReadingFact {
  const ok = estimate.status === 'ok';
  return { ...at, designRiseK: ok ? estimate.designRiseK : null, verdict: estimate.verdict, leading: estimate.causes[0]?.id ?? null };
}

/** Why a reading says nothing of the coil, or null. A coil still bad after cleaning does speak of the coil. */
export function setAsideWhy(fact: ReadingFact): string | null {
  if (fact.fanFailed) return 'condenser_fan';
  if (fact.verdict !== 'look_elsewhere' || fact.leading === 'coil_fouling') return null;
  return fact.leading ?? 'another_cause';
}

/** Clean baseline from every reading after a cleaning, oldest first. The same facts always give the same baseline. */
export function baselineFrom(unit: CondenserUnit, facts: readonly ReadingFact[]): CleanBaseline {
  return (
    [...facts]
      .sort((a, b) => a.at - b.at)
      .filter((f) => f.phase === 'after' && f.designRiseK && setAsideWhy(f) === null)
      // Only status and design rise are read of an estimate here.
      .reduce((b, f) => updateBaseline(b, { status: 'ok', designRiseK: f.designRiseK } as EstimateOk), cleanPrior(unit))
  );
}

/**
 * What a cleaning leaves on a coil, as the belief about deposits has it before a fleet has spoken: 0.01 that never comes off, and a twentieth of
 * 0.2 or so. A baseline taught after cleanings is clean but for that.
 */
const LEFT_BY_CLEANING = 0.02;

/** The same as `lnKOf`, against a coil with nothing on it: what is held against looks and beliefs. */
export function depositOf(fact: ReadingFact, baseline: CleanBaseline): { lnK: number; sd: number } | null {
  const seen = lnKOf(fact, baseline);
  return seen && baseline.readings > 0 ? { ...seen, lnK: seen.lnK - LEFT_BY_CLEANING } : seen;
}

/** ln(K/K_clean) of a fact under a baseline, with its standard deviation; null when the reading could not say. */
export function lnKOf(fact: ReadingFact, baseline: CleanBaseline): { lnK: number; sd: number } | null {
  const rise = fact.designRiseK;
  if (!rise || !(rise.value > 0 && rise.lo > 0 && rise.hi > rise.lo)) return null;
  const own = Math.log(rise.hi / rise.lo) / (2 * Z80);
  return { lnK: Math.log(baseline.cleanRiseK / rise.value), sd: Math.hypot(own, baseline.sdK / baseline.cleanRiseK) };
}
