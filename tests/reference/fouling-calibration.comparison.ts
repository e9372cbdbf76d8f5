import { calibrate, chiSquare, type Ranks } from '../support/fouling-calibration';
import type { Comparison } from './comparison';

const FLEETS = 1000;
const BINS = 20;
/** Chi-square with 19 degrees of freedom goes beyond this once in a thousand (table value, from memory). */
export const RARE = 43.82;

const SOURCE = 'Simulation-based calibration: Talts, Betancourt, Simpson, Vehtari & Gelman 2018, 1,000 small fleets drawn from the model';
const WHAT: Record<keyof Ranks, string> = {
  rate: 'fouling rate',
  deposit: 'deposit today',
  restored: 'part a cleaning leaves',
  crossing45: 'day on which ln K passes −0.45',
  crossing60: 'day on which ln K passes −0.60',
};

/** Truths drawn from the prior must rank uniformly among posterior draws; 80 % bands of the date hold 77 to 83 %. */
export function comparisons(): Comparison[] {
  const { ranks, bands } = calibrate(11, FLEETS);
  const uniform = (Object.keys(WHAT) as (keyof Ranks)[]).map((key) => ({
    id: `calibration-${key}`,
    regression: true as const,
    source: SOURCE,
    quantity: `ranks of the ${WHAT[key]}: chi-square over ${BINS} bins`,
    unit: '1',
    tolerance: RARE,
    worst: chiSquare(ranks[key], BINS),
    samples: ranks[key].length,
    expectedSamples: FLEETS,
  }));
  const share = bands.filter(Boolean).length / bands.length;
  return [
    ...uniform,
    {
      regression: true,
      id: 'calibration-bands',
      source: SOURCE,
      quantity: 'share of forecast dates within their 80 % band, off 80 %',
      unit: '1',
      tolerance: 0.03,
      worst: Math.abs(share - 0.8),
      samples: FLEETS,
      expectedSamples: FLEETS,
    },
  ];
}
