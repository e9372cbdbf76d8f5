import type { UnitValues } from '../equipment/unit-fields';
import { READING_FIELDS, type ReadingField } from '../entries/reading-fields';
import type { SeenAtReading } from '../findings/seen';
import type { CompressorMap } from './compressor/ten-coefficient';
import { withUsualDay } from './outlook/energy';
import type { CleanBaseline, CondenserUnit, Conditions, GaugeGrade, Reading, ReadingPhase } from './types';

/** Shop records as they lie on file (null where nothing was entered), told to this room. Pure, for server and tablet. */

type Maybe<T> = T | null | undefined;

export type UnitRecord = Pick<UnitValues, 'kind' | 'refrigerant' | 'placement'> & Partial<UnitValues> & { compressorMap?: unknown };
export type KitchenRecord = { altitudeM?: number; hotDayAirK?: number; energyPricePerKwh?: Maybe<number> };

/** Where nobody entered a set point: 38 °F in a cooler, −5 °F in a freezer, 30 °F in an ice machine. */
export function usualBoxK(kind: string, application: string): number {
  if (kind === 'ice_machine') return 272.04;
  return application === 'low' ? 252.6 : 276.48;
}

// eslint-disable-next-line complexity -- a table: a field of the machine a line, with what stands for an empty one
export function condenserUnitOf(unit: UnitRecord, kitchen: KitchenRecord): CondenserUnit {
  const application = unit.application ?? 'medium';
  return {
    refrigerant: unit.refrigerant,
    kind: unit.kind,
    application,
    expansion: unit.expansion ?? 'capillary',
    circuitAccess: unit.circuitAccess ?? 'sealed',
    condenserKind: unit.condenserKind ?? 'fin_and_tube',
    placement: unit.placement,
    boxSetPointK: unit.boxSetK ?? usualBoxK(unit.kind, application),
    altitudeM: kitchen.altitudeM ?? 0,
    cutoutPaGauge: unit.cutoutPaGauge ?? undefined,
    chargeKg: unit.chargeKg ?? undefined,
    hasHeadControl: unit.headControl ?? undefined,
    nominalCoolingW: unit.nominalCoolingW ?? undefined,
    runHoursPerDay: unit.runHoursPerDay ?? undefined,
    airOverRoomK: unit.airOverRoomK ?? undefined,
    airProfile: unit.airProfile ?? undefined,
    thermometerClass: unit.thermometerClass ?? undefined,
    compressorMap: (unit.compressorMap as CompressorMap | null | undefined) ?? undefined,
  };
}

/** 95 °F where the kitchen's hot day was not entered. A price that is not known is null, and money is then not told. */
export function conditionsOf(unit: CondenserUnit, kitchen: KitchenRecord, currency: string): Conditions & { priceKnown: boolean } {
  return withUsualDay(unit, {
    hotDayAirK: kitchen.hotDayAirK ?? 308.15,
    boxK: unit.boxSetPointK,
    energyPricePerKwh: kitchen.energyPricePerKwh ?? 0,
    priceKnown: kitchen.energyPricePerKwh != null,
    currency,
  });
}

export type ReadingRecord = {
  at: Date | number | string;
  phase: string;
  gaugeGrade?: Maybe<string>;
  gaugeSpanPa?: Maybe<number>;
} & {
  [K in ReadingField]?: Maybe<number>;
};

/** A reading on file, with what the same look at the unit said of coil and fan. */
export function readingOf(record: ReadingRecord, seen: Partial<SeenAtReading> = {}): Reading {
  const reading: Reading = { at: new Date(record.at).getTime(), phase: record.phase as ReadingPhase };
  for (const key of READING_FIELDS) {
    const value = record[key];
    if (value !== null && value !== undefined) reading[key] = value;
  }
  if (record.gaugeGrade && record.gaugeSpanPa) reading.gauge = { grade: record.gaugeGrade as GaugeGrade, spanPa: record.gaugeSpanPa };
  if (seen.coilGrade) reading.coilGrade = seen.coilGrade;
  if (seen.fanGrade) reading.fanGrade = seen.fanGrade;
  if (seen.airPathGrade) reading.airPathGrade = seen.airPathGrade;
  if (seen.evaporatorFanGrade) reading.evaporatorFanGrade = seen.evaporatorFanGrade;
  if (seen.evaporatorCoilGrade) reading.evaporatorCoilGrade = seen.evaporatorCoilGrade;
  if (seen.iceGrade) reading.iceGrade = seen.iceGrade;
  return reading;
}

/** A stored baseline, or null when there is none worth the name. */
export function baselineOf(stored: unknown): CleanBaseline | null {
  const b = stored as Partial<CleanBaseline> | null;
  return b && typeof b.cleanRiseK === 'number' && b.cleanRiseK > 0 && typeof b.sdK === 'number' && typeof b.readings === 'number'
    ? (b as CleanBaseline)
    : null;
}
