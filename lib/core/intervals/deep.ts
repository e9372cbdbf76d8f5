import { daysBetween } from '../calendar';
import { afterCleaning, washedThrough, type FoulingPosterior, type Limit, type UnitHistory } from '../fouling';
import { costCurve, type CostPoint } from './optimise';
import type { UnitPolicy } from './policy';

export type WashThrough = {
  /** Money a year that old deposit costs: more cleanings, more energy. */
  costPerYear: number;
  /** Days after which the dearer cleaning has paid for itself. */
  paysBackDays: number;
};

/** Days since old deposit last came off, as far as anybody knows. */
function builtUpIn(history: UnitHistory, posterior: FoulingPosterior): number {
  const last = history.events.reduce((a, e) => (e.kind === 'cleaning' && e.deep && e.on > a ? e.on : a), history.startedOn);
  return daysBetween(last, posterior.asOf);
}

const least = (curve: readonly CostPoint[]): number => curve.reduce((a, p) => Math.min(a, p.costPerDay), Infinity);

/**
 * Whether old deposit that no plain cleaning takes off is worth washing right through. What it costs a day rises as it
 * builds up, so by the square-root law (Harris 1913; `linearPenalty`) it is time when what it costs a day, times the
 * days in which it built up, is twice what the dearer cleaning costs more. Null while it is not, or cannot pay at all.
 */
export function washThrough(
  history: UnitHistory,
  posterior: FoulingPosterior,
  settings: UnitPolicy,
  failureLimit: Limit,
): WashThrough | null {
  const more = settings.deepCleaningCost - settings.cleaningCost;
  const days = builtUpIn(history, posterior);
  // Old deposit that may as well be none has nothing to take off.
  if (!(more > 0) || posterior.residue.mean + posterior.residue.sd > 0 || days <= 0) return null;
  const fresh = afterCleaning(posterior);
  const washed = washedThrough(fresh);
  const price = settings.energyCostPerDayPerLnK;
  const energy = (deposit: number) => (typeof price === 'function' ? price(Math.max(0, deposit)) : price * Math.max(0, deposit));
  const perDay =
    least(costCurve(fresh, settings, failureLimit)) -
    least(costCurve(washed.ahead, settings, failureLimit)) +
    energy(-posterior.residue.mean) -
    energy(-posterior.residue.mean * washed.left);
  if (!(perDay * days >= 2 * more)) return null;
  return { costPerYear: perDay * 365.25, paysBackDays: more / perDay };
}
