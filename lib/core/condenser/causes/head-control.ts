import type { CondenserUnit } from '../types';

/** Fan cycling and head valves hold about this condensing temperature (common practice, from memory), K. */
const USUAL_HOLD_K = 305;

export function holdK(unit: CondenserUnit): number {
  return unit.headControlHoldK ?? USUAL_HOLD_K;
}

/**
 * True where a head control sets the head rather than the coil: a clean coil in this air would condense below what
 * the control holds. Unknown controls are presumed on outdoor and remote units.
 */
export function underHeadControl(unit: CondenserUnit, airK: number, cleanRiseK: number): boolean {
  const presumed = unit.hasHeadControl ?? (unit.placement === 'outdoors' || unit.kind === 'remote_condensing_unit');
  return presumed && airK + cleanRiseK < holdK(unit) + 1;
}
