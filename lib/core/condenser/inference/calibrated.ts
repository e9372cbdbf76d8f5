import { keysOf } from '../../typed/closed-set';
import type { CauseId, Reading } from '../types';

/**
 * Causes as often as they come: what the hypotheses are worth is raised to a power, and where line temperatures were read each cause is
 * weighed by how often it was it. Set on the outside plant, part A, drawn back and rounded.
 */
const POWER = { lines: 1.12, other: 1.19 } as const;
const LN_WEIGHT: Partial<Record<CauseId, number>> = {
  nothing: -0.5,
  coil_fouling: -0.1,
  condenser_fan: 0.3,
  recirculation: 0.5,
  non_condensables: 0.1,
  overcharge: 0.2,
  low_charge: -0.35,
  high_load: 0.5,
  not_steady: 0.1,
  reading_fault: 0.35,
};

/** Probabilities of causes after it; one of two that are weighed alike stays the likelier. */
export function calibrated(raw: Readonly<Record<CauseId, number>>, { suctionLineK }: Reading): Record<CauseId, number> {
  const lines = suctionLineK !== undefined;
  const power = lines ? POWER.lines : POWER.other;
  const out = { ...raw };
  let sum = 0;
  for (const cause of keysOf(raw)) {
    out[cause] = Math.pow(raw[cause], power) * (lines ? Math.exp(LN_WEIGHT[cause] ?? 0) : 1);
    sum += out[cause];
  }
  for (const cause of keysOf(raw)) out[cause] /= sum;
  return out;
}
