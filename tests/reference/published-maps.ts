import { readFileSync } from 'node:fs';
import path from 'node:path';

const rows = (file: string) =>
  readFileSync(path.join(import.meta.dirname, 'data', file), 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(','));

export type PublishedMap = {
  id: string;
  refrigerant: string;
  application: string;
  what: string;
  set: string;
  at(x: number, y: number): number;
};

/** Published compressor maps: watts over saturated suction and discharge, °C. See data/compressors/README.md. */
export function publishedMaps(): PublishedMap[] {
  return rows('compressors/maps.csv').map(([id = '', refrigerant = '', application = '', what = '', ...rest]) => {
    const [c1 = 0, c2 = 0, c3 = 0, c4 = 0, c5 = 0, c6 = 0, c7 = 0, c8 = 0, c9 = 0, c10 = 0] = rest.slice(0, 10).map(Number);
    const at = (x: number, y: number) =>
      c1 + c2 * x + c3 * x * x + c4 * y + c5 * y * y + c6 * x * y + c7 * x ** 3 + c8 * y ** 3 + c9 * x * x * y + c10 * x * y * y;
    return { id, refrigerant, application, what, set: rest.at(-1) ?? '', at };
  });
}

/** Where slopes are taken, °C: suction of a cooler and of a freezer; discharge between a clean and a fouled hot day. */
export const SLOPE_AT = { suction: { medium: -7, low: -29 }, from: 38, to: 48 } as const;

/** Change per kelvin of condensing, in %, of a quantity over discharge °C. */
export function percentPerK(at: (dischargeC: number) => number): number {
  return (100 * Math.log(at(SLOPE_AT.to) / at(SLOPE_AT.from))) / (SLOPE_AT.to - SLOPE_AT.from);
}

export type PublishedFault = {
  fault: string;
  what: string;
  ratio(level: number, at: { wetBulbC: number; outdoorC: number; cop: number }): number;
};

/** Measured faults of rooftop units. See data/faults/README.md. */
export function publishedFaults(): PublishedFault[] {
  return rows('faults/correlations.csv').map(([fault = '', , what = '', ...rest]) => {
    const [c1 = 0, c2 = 0, c3 = 0, c4 = 0, c5 = 0, c6 = 0] = rest.map(Number);
    return {
      fault,
      what,
      ratio: (f, { wetBulbC, outdoorC, cop }) =>
        1 + f * (c1 + c2 * (wetBulbC / 273.15 + 1) + c3 * (outdoorC / 273.15 + 1) + c4 * f + c5 * f * f + c6 * cop),
    };
  });
}
