import type { Application, UnitKind } from '../../equipment/build';
import { typicalCompressor, type CompressorConstants, type CompressorKind } from '../compressor/kinds';

/** What is usual for a kind of equipment, before anything of the unit itself is known. */
export type Profile = {
  compressor: CompressorConstants;
  /** Box minus evaporating dew temperature at the design point. */
  evaporatorDifferenceK: number;
  cleanRiseK: number;
  /** Spread of the clean rise between units of the kind, one standard deviation. */
  cleanRiseSdK: number;
  designAirK: number;
  superheatK: number;
  subcoolingK: number;
  /** The same behind a receiver, from which liquid leaves hardly cooled: what the line through the kitchen takes. */
  receivedSubcoolingK?: number;
  nominalCoolingW: number;
  /** Condenser and evaporator fans together, as a part of compressor power at the design point. */
  fanShare: number;
  cleanRunHoursPerDay: number;
};

const F = 5 / 9;

type Row = {
  rise: number;
  sd: number;
  td: number;
  watts: number;
  compressor: CompressorKind;
};

/**
 * Clean rise in °F: walk-in condensing units 20–25, self-contained 20–30, remote 15–20 medium and 10–15 low
 * (common practice, from memory); low-temperature machines pay for larger coils. An ice
 * machine is read in the middle of a freeze, under less than its full load (set on the outside plant, part A). Evaporator differences in °F:
 * about 10 for walk-ins, 15–20 for reach-ins (common practice, from memory).
 */
const ROWS: Record<UnitKind, Row> = {
  reach_in: { rise: 25, sd: 4, td: 19, watts: 500, compressor: 'small_reciprocating' },
  undercounter: { rise: 26, sd: 4, td: 19, watts: 250, compressor: 'small_reciprocating' },
  drawer_base: { rise: 27, sd: 4, td: 19, watts: 300, compressor: 'small_reciprocating' },
  prep_table: { rise: 26, sd: 4, td: 19, watts: 400, compressor: 'small_reciprocating' },
  walk_in_cooler: { rise: 22.5, sd: 3.5, td: 10.5, watts: 2800, compressor: 'reciprocating' },
  walk_in_freezer: { rise: 20, sd: 3.5, td: 10, watts: 2200, compressor: 'reciprocating' },
  ice_machine: { rise: 21.5, sd: 4.5, td: 22, watts: 1500, compressor: 'small_reciprocating' },
  display: { rise: 24, sd: 4, td: 17, watts: 900, compressor: 'small_reciprocating' },
  remote_condensing_unit: { rise: 17.5, sd: 3, td: 10, watts: 5000, compressor: 'scroll' },
};

/** Of the clean rise (set on the outside plant, part A, drawn back). */
const RECEIVED = 0.29;

export function profileOf(kind: UnitKind, application: Application): Profile {
  const row = ROWS[kind];
  // An ice machine evaporates for ice at 32 °F, whatever application somebody ticked.
  const low = application === 'low' && kind !== 'ice_machine';
  const smaller = low && kind !== 'walk_in_freezer' ? 0.8 : 1;
  return {
    compressor: typicalCompressor(row.compressor, low),
    evaporatorDifferenceK: row.td * F,
    cleanRiseK: row.rise * F * smaller,
    cleanRiseSdK: row.sd * F * smaller,
    designAirK: 305.37,
    superheatK: 11.1,
    subcoolingK: 4.4,
    receivedSubcoolingK: RECEIVED * row.rise * F * smaller,
    nominalCoolingW: row.watts * (low && kind !== 'walk_in_freezer' ? 0.75 : 1),
    fanShare: 0.15,
    cleanRunHoursPerDay: low ? 16 : 14,
  };
}

/**
 * Packaged air conditioning, for data loggers' files: 45 °F evaporating, room air at 75 °F, clean rise 20–30 °F.
 * Efficiency 0.72: a scroll of 11 Btu/Wh at 45/130 °F (common practice, from memory).
 */
export const AIR_CONDITIONER: Profile = {
  compressor: { ...typicalCompressor('scroll'), ratedEfficiency: 0.72 },
  evaporatorDifferenceK: 30 * F,
  cleanRiseK: 25 * F,
  cleanRiseSdK: 4 * F,
  designAirK: 308.15,
  superheatK: 8,
  subcoolingK: 5.6,
  nominalCoolingW: 10_000,
  fanShare: 0.12,
  cleanRunHoursPerDay: 8,
};
