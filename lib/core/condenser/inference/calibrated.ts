import { keysOf } from '../../typed/closed-set';
import type { CauseId, Reading } from '../types';

/**
 * Causes as often as they come: what the hypotheses are worth is raised to a power, a greater one where coil and fan were looked at, and
 * where line temperatures were read each cause is weighed by how often it was it. Set on the outside plant, part A, drawn back and rounded.
 */
const POWER = { blind: { lines: 1.12, other: 1.19 }, looked: { lines: 1.3, other: 1.45 } } as const;
const LN_WEIGHT: Partial<Record<CauseId, number>> = {
  nothing: -0.85,
  coil_fouling: -0.3,
  condenser_fan: 0.35,
  recirculation: 0.4,
  non_condensables: 0.2,
  overcharge: 0.15,
  low_charge: -0.3,
  evaporator_coil: -0.2,
  weak_compressor: 0.1,
  high_load: 0.6,
  not_steady: 0.4,
  reading_fault: 0.6,
};

/** Probabilities of causes after it; one of two that are weighed alike stays the likelier. */
export function calibrated(
  raw: Readonly<Record<CauseId, number>>,
  { suctionLineK, coilGrade, fanGrade }: Reading,
): Record<CauseId, number> {
  const lines = suctionLineK !== undefined;
  const looked = coilGrade !== undefined && fanGrade !== undefined;
  const power = POWER[looked ? 'looked' : 'blind'][lines ? 'lines' : 'other'];
  const out = { ...raw };
  let sum = 0;
  for (const cause of keysOf(raw)) {
    out[cause] = Math.pow(raw[cause], power) * (lines ? Math.exp(LN_WEIGHT[cause] ?? 0) : 1);
    sum += out[cause];
  }
  for (const cause of keysOf(raw)) out[cause] /= sum;
  return out;
}
