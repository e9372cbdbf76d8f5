import { keysOf } from '../../typed/closed-set';
import type { CauseId, Reading } from '../types';
import { BEFORE } from './priors';

/**
 * Causes as often as they come: what the hypotheses are worth is raised to a power, a greater one where coil and fan were looked at, and
 * where line temperatures were read each cause is weighed by how often it was it. Three cases in a hundred are none that the reading speaks
 * for, and are shared out as causes are met. Set on the outside plant, part A, drawn back and rounded; the greater power and the three in a hundred on A and C to I met as in a kitchen.
 */
const POWER = { blind: 1.4, looked: 1.6 } as const;
const ASTRAY = 0.03;
const LN_WEIGHT: Partial<Record<CauseId, number>> = {
  nothing: -0.45,
  coil_fouling: -0.3,
  condenser_fan: 0.4,
  recirculation: 0.4,
  non_condensables: 0.15,
  overcharge: 0.15,
  evaporator_coil: -0.15,
  weak_compressor: 0.1,
  high_load: 0.7,
  not_steady: 1.2,
  reading_fault: 0.9,
};
/** Probabilities of causes after it; one of two that are weighed alike stays the likelier. */
export function calibrated(
  raw: Readonly<Record<CauseId, number>>,
  { suctionLineK, coilGrade, fanGrade }: Reading,
): Record<CauseId, number> {
  const lines = suctionLineK !== undefined;
  const looked = coilGrade !== undefined && fanGrade !== undefined;
  const power = POWER[looked ? 'looked' : 'blind'];
  const out = { ...raw };
  let [sum, met] = [0, 0];
  for (const cause of keysOf(raw)) {
    out[cause] = Math.pow(raw[cause], power) * (lines ? Math.exp(LN_WEIGHT[cause] ?? 0) : 1);
    sum += out[cause];
    if (raw[cause] > 0) met += BEFORE[cause];
  }
  for (const cause of keysOf(raw)) out[cause] = raw[cause] > 0 ? (1 - ASTRAY) * (out[cause] / sum) + (ASTRAY * BEFORE[cause]) / met : 0;
  return out;
}
