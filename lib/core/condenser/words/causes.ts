import type { CauseId } from '../types';

/** What the trade calls each cause in the middle of a sentence. */
export const CAUSE_LABEL: Record<CauseId, string> = {
  nothing: 'nothing wrong',
  coil_fouling: 'a fouled coil',
  condenser_fan: 'the condenser fan',
  blocked_air: 'blocked air at the condenser',
  recirculation: 'hot air coming round again',
  non_condensables: 'air in the system',
  overcharge: 'an overcharge',
  low_charge: 'a low charge or a restriction',
  evaporator_coil: 'an iced or dirty evaporator',
  evaporator_fan: 'the evaporator fan',
  weak_compressor: 'a weak compressor',
  high_load: 'a heavy load or pull-down',
  head_pressure_control: 'the head control',
  not_steady: 'a reading taken before it ran steadily',
  reading_fault: 'the reading itself',
};

/** "almost surely", "probably", "perhaps": how sure, for people who do not read percentages. */
export function likelyWords(p: number): string {
  if (p > 0.9) return 'almost surely';
  if (p > 0.6) return 'probably';
  if (p > 0.3) return 'perhaps';
  return 'possibly';
}
