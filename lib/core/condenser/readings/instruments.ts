import type { Gauge, GaugeGrade } from '../types';

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
 * One standard deviation of a gauge in pascal. The grade's limit is taken as one sigma, not as a bound: gauges
 * of a service van are dropped and seldom calibrated.
 */
export function gaugeSdPa(gauge: Gauge, paGauge: number): number {
  const [low, middle, high] = GRADE_PERCENT[gauge.grade];
  const at = paGauge / gauge.spanPa;
  const percent = at < 0.25 ? low : at <= 0.75 ? middle : high;
  return (percent / 100) * gauge.spanPa;
}

const PSI = 6894.757293168;

/** What is taken when a technician did not say which gauge: grade A, 500 psi, 800 psi for high-pressure refrigerants. */
export function assumedGauge(refrigerant: string): Gauge {
  const high = ['R410A', 'R32', 'R125', 'R744'].includes(refrigerant);
  return { grade: 'A', spanPa: (high ? 800 : 500) * PSI };
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
