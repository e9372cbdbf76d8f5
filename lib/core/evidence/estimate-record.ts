import {
  estimate,
  type CleanBaseline,
  type CondenserUnit,
  type Conditions,
  type Estimate,
  type PastLoss,
  type Reading,
} from '../condenser/api';
import type { LocalDate } from '../calendar';
import { lnKOf, readingFact, setAsideWhy, type ReadingFact } from './reading-fact';

/** Raised whenever the same reading would give another estimate. */
const CONDENSER_MODEL_VERSION = 'condenser-13';

/** Losses since the last cleaning, oldest first, brought to the baseline of today: a jump must be told from a trend. */
export function pastLosses(
  facts: readonly ReadingFact[],
  baseline: CleanBaseline,
  lastCleaning: LocalDate | null,
  before: number,
): PastLoss[] {
  return facts
    .filter(
      (f) =>
        f.at < before &&
        setAsideWhy(f) === null &&
        (lastCleaning === null || f.on > lastCleaning || (f.on === lastCleaning && f.phase === 'after')),
    )
    .flatMap((f) => {
      const seen = lnKOf(f, baseline);
      return seen ? [{ at: f.at, lost: 1 - Math.exp(seen.lnK), sd: seen.sd * Math.exp(seen.lnK) }] : [];
    })
    .sort((a, b) => a.at - b.at);
}

/** One reading's estimate under a baseline. Without a price no money is told. */
export function estimateReading(
  unit: CondenserUnit,
  reading: Reading,
  baseline: CleanBaseline,
  conditions: Conditions & { priceKnown: boolean },
  history: readonly PastLoss[],
): Estimate {
  const e = estimate(unit, reading, baseline, conditions, { history });
  return e.status === 'ok' && !conditions.priceKnown
    ? {
        ...e,
        extraCostPerDay: null,
        assumptions: [
          ...e.assumptions.filter((a) => !a.startsWith('Money')),
          'No energy price on file for this kitchen: no money is told.',
        ],
      }
    : e;
}

/** The columns that stand beside the whole result: ln(K/K_clean) with its sd, null when the reading cannot say. */
export function estimateColumns(
  e: Estimate,
  baseline: CleanBaseline,
  at: { at: number; on: LocalDate; phase: ReadingFact['phase']; fanFailed: boolean },
) {
  const fact = readingFact(e, at);
  const seen = lnKOf(fact, baseline);
  return {
    fact,
    columns: {
      status: e.status,
      verdict: e.verdict,
      lnK: seen?.lnK ?? null,
      lnKSd: seen?.sd ?? null,
      modelVersion: CONDENSER_MODEL_VERSION,
    },
  };
}
