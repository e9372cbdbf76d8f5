import type { CannotSayReason, CondenserUnit, Reading } from '../types';

/** What a reading lacks to say anything of a condenser; null when it has the least it needs. */
export function unreadable(unit: CondenserUnit, reading: Reading): CannotSayReason | null {
  if (unit.condenserKind === 'water_cooled') return 'water_cooled';
  if (unit.refrigerant === 'R744') return 'above_critical';
  if (reading.headPaGauge === undefined && reading.condensingClampK === undefined) return 'no_condensing_reading';
  if (reading.airInK === undefined && reading.roomAirK === undefined) return 'no_air_reading';
  return null;
}
