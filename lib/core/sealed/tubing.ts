import { keysOf } from '../typed/closed-set';

/**
 * Copper tube of the trade, by its outside diameter in inches: ASTM B280, annealed where both tempers are made.
 * Bores as ASTM B280 tables print them (read in a published reprint of the table, 2026-11-27).
 */
const BORE_IN = {
  '1/8': 0.065,
  '3/16': 0.128,
  '1/4': 0.19,
  '5/16': 0.248,
  '3/8': 0.311,
  '1/2': 0.436,
  '5/8': 0.555,
  '3/4': 0.68,
  '7/8': 0.785,
  '1 1/8': 1.025,
  '1 3/8': 1.265,
} as const;

export type TubeSize = keyof typeof BORE_IN;
export const TUBE_SIZES = keysOf(BORE_IN);

const INCH_M = 0.0254;
/** Half of ASTM B280's tolerance on mean outside diameter (±0.002 in) and on wall (±0.003 in, twice), as standard deviations. */
const BORE_SD_IN = Math.hypot(0.002, 2 * 0.003) / 2;

/** Area of the bore in m², and its standard deviation as a share. */
export function boreArea(size: TubeSize): { areaM2: number; sdShare: number } {
  const bore = BORE_IN[size];
  return { areaM2: (Math.PI / 4) * (bore * INCH_M) ** 2, sdShare: (2 * BORE_SD_IN) / bore };
}

/** Inner volume (m³) of a length (m) of tube. */
export const tubeVolume = (size: TubeSize, lengthM: number): number => boreArea(size).areaM2 * lengthM;
