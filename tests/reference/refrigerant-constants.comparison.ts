import { bubbleTemperature, dewTemperature, unwrap } from '@/lib/core/refrigerants';
import { componentsOf } from '@/lib/core/refrigerants/exact';
import { Mixture } from '@/lib/core/refrigerants/models/mixture';
import type { Comparison } from './comparison';
import { Worst } from './support';

/** Normal boiling points, °C, from memory of ASHRAE 34 and the equations' own papers. */
const BOILING: Record<string, number> = {
  R134a: -26.07, R290: -42.11, R600a: -11.75, R22: -40.81, R12: -29.75, R32: -51.65, R125: -48.09, R143a: -47.24,
  R152a: -24.02, 'R1234ze(E)': -18.97, R1234yf: -29.49,
}; // prettier-ignore

/** Bubble and dew points at 101.325 kPa, °C, from memory of ASHRAE 34 (rounded to 0.1 there). */
const GLIDE: Record<string, readonly [number, number]> = {
  R404A: [-46.6, -45.8], R407C: [-43.8, -36.7], R410A: [-51.6, -51.5], R407A: [-45.2, -38.7], R407F: [-46.1, -39.7],
  R448A: [-45.9, -39.8], R449A: [-46, -39.9], R454C: [-46, -37.8], R455A: [-51.6, -39.1], R513A: [-29.2, -29.1],
}; // prettier-ignore

const ATMOSPHERE = 101_325;

/** αʳ of the pair R-1234ze(E)/R-227ea at 470 K, 3023 mol/m³, 0.4/0.6 mol/mol: Bell 2023, table 13. */
const BELL_2023 = { T: 470, rho: 3023, x: [0.4, 0.6], alphar: -0.45378834770736 };

export function comparisons(): Comparison[] {
  const boiling = new Worst();
  for (const [id, t] of Object.entries(BOILING)) boiling.add(unwrap(dewTemperature(id, ATMOSPHERE)) - 273.15 - t);
  const glide = new Worst();
  for (const [id, [bubble, dew]] of Object.entries(GLIDE)) {
    glide.add(unwrap(bubbleTemperature(id, ATMOSPHERE)) - 273.15 - bubble);
    glide.add(unwrap(dewTemperature(id, ATMOSPHERE)) - 273.15 - dew);
  }
  const pair = new Worst();
  const mixture = new Mixture(componentsOf('R515B').components);
  mixture.evaluate(BELL_2023.T, BELL_2023.rho, BELL_2023.x);
  pair.add(mixture.a00 - BELL_2023.alphar);
  return [
    {
      id: 'refrigerants.boiling-point',
      source: 'from memory: ASHRAE Standard 34 and the papers of the equations',
      quantity: 'Normal boiling point, 11 pure refrigerants',
      unit: 'K',
      tolerance: 0.06,
      expectedSamples: 11,
      worst: boiling.worst,
      samples: boiling.samples,
    },
    {
      id: 'refrigerants.glide',
      source: 'from memory: ASHRAE Standard 34 (bubble and dew point at 101.325 kPa)',
      quantity: 'Bubble and dew point of ten blends at atmospheric pressure',
      unit: 'K',
      tolerance: 0.7,
      expectedSamples: 20,
      worst: glide.worst,
      samples: glide.samples,
    },
    {
      id: 'refrigerants.pair-check-value',
      source: 'Bell 2023, J. Phys. Chem. Ref. Data 52, 013101, table 13',
      quantity: 'Residual Helmholtz energy of R-1234ze(E)/R-227ea',
      unit: '1',
      tolerance: 1e-13,
      expectedSamples: 1,
      worst: pair.worst,
      samples: pair.samples,
    },
  ];
}
