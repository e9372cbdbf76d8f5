import type { ThermometerClass } from '../../equipment/unit-fields';
import type { Gauge, GaugeGrade, Reading } from '../types';

/**
 * Permissible error in % of span over the lower quarter, the middle half and the upper quarter of the scale.
 * ASME B40.100; the figures are from memory.
 */
const GRADE_PERCENT: Record<GaugeGrade, readonly [number, number, number]> = {
  '4A': [0.1, 0.1, 0.1],
  '3A': [0.25, 0.25, 0.25],
  '2A': [0.5, 0.5, 0.5],
  '1A': [1, 1, 1],
  A: [2, 1, 2],
  B: [3, 2, 3],
  C: [4, 3, 4],
  D: [5, 5, 5],
};

/**
 * One standard deviation of a gauge in pascal: three quarters of the grade's limit, as gauges of a service van are dropped
 * and seldom calibrated (set on the outside plant, part A).
 */
export function gaugeSdPa(gauge: Gauge, paGauge: number): number {
  const [low, middle, high] = GRADE_PERCENT[gauge.grade];
  const at = paGauge / gauge.spanPa;
  const percent = at < 0.25 ? low : at <= 0.75 ? middle : high;
  return ((SD_OF_LIMIT * percent) / 100) * gauge.spanPa;
}

const SD_OF_LIMIT = 0.75;

const PSI = 6894.757293168;

/** Span taken when a technician did not say which gauge: 500 psi, 800 psi for high-pressure refrigerants; half of it below. */
function usualSpanPa(refrigerant: string): number {
  return (['R410A', 'R32', 'R125', 'R744'].includes(refrigerant) ? 800 : 500) * PSI;
}
/** Error of a gauge that nobody named, as a part of its span (set on the outside plant, part A). */
const UNNAMED_SD = 0.01;

/** One standard deviation (Pa) of the head gauge of a reading at a pressure; named or not. */
export function headSdPa(reading: Pick<Reading, 'gauge'>, refrigerant: string, paGauge: number): number {
  return reading.gauge ? gaugeSdPa(reading.gauge, paGauge) : UNNAMED_SD * usualSpanPa(refrigerant);
}

/** The same of the low-side gauge; one that was not named is like the other, of half its span. */
export function suctionSdPa(reading: Pick<Reading, 'gauge' | 'suctionGauge'>, refrigerant: string, paGauge: number): number {
  const { gauge, suctionGauge } = reading;
  if (suctionGauge) return gaugeSdPa(suctionGauge, paGauge);
  return gauge ? gaugeSdPa({ grade: gauge.grade, spanPa: gauge.spanPa / 2 }, paGauge) : (UNNAMED_SD * usualSpanPa(refrigerant)) / 2;
}

/** Limits of IEC 60751 (platinum) and IEC 60584-1 (thermocouples) near 40 °C, K; taken as two standard deviations. */
const CLASS_LIMIT_K: Record<ThermometerClass, number> = { pt_a: 0.23, pt_b: 0.5, tc_1: 0.5, tc_2: 1 };
/** What the meter behind the sensor and its last digit add (judgement). */
const METER_SD_K = 0.2;

/** A reading with the error of the thermometers that its unit is read with, where nobody stated another. */
export function withThermometer(reading: Reading, kind: ThermometerClass | undefined): Reading {
  if (reading.thermometerSdK !== undefined || kind === undefined) return reading;
  return { ...reading, thermometerSdK: Math.hypot(CLASS_LIMIT_K[kind] / 2, METER_SD_K) };
}

/** Thermometers and clamps: ±1 °F of the instrument (common practice, from memory). */
export const THERMOMETER_SD_K = 5 / 9;
/** Contact error of a pipe clamp, beside the instrument's. */
export const CONTACT_SD_K = 0.5;
/** A clamp on a mid-condenser bend usually reads low: its usual shortfall, and how much that varies. */
export const BEND_SHORTFALL_K = 1;
export const BEND_SHORTFALL_SD_K = 0.9;
/** Air enters a coil unevenly; one probe stands for all of it (set on the outside plant, part A). */
export const AIR_PLACEMENT_SD_K = 0.7;
/** Room air instead of coil-inlet air: usually a little cooler than what the coil breathes. */
export const ROOM_TO_COIL_K = 1;
export const ROOM_TO_COIL_SD_K = 2;
/** Scatter of the rise within a day of steady running: 0.5–0.8 °F in the field records of 2017, one unit. */
export const STEADY_SCATTER_SD_K = 0.35;
