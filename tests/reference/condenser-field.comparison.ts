import { analyseLog, type LogRow } from '@/checks/logger-file';
import { bubbleTemperature, dewPressure, unwrap } from '@/lib/core/refrigerants';
import type { Comparison } from './comparison';
import { fahrenheit, worstOf } from './condenser-support';

/**
 * Three fouling states of one R-410A rooftop unit, means at 75 °F outdoor: condensing dew temperature, evaporating
 * dew temperature (°F), and against the clean state the conductance, compressor power and cooling. Line temperatures
 * were not published with the means; superheat and subcooling are taken as usual and equal in the three states.
 */
const STATES = [
  { name: 'clean', condensing: 98.6, evaporating: 46, conductance: 1, power: 1, cooling: 1 },
  { name: '28 %', condensing: 103.6, evaporating: 47.6, conductance: 0.83, power: 1.047, cooling: 1.003 },
  { name: '58 %', condensing: 116.2, evaporating: 49.7, conductance: 0.58, power: 1.205, cooling: 0.971 },
] as const;
const OUTDOOR_F = 75;

function rows(): LogRow[] {
  return STATES.map((s, i) => {
    const headPa = unwrap(dewPressure('R410A', fahrenheit(s.condensing)));
    return {
      line: i + 2,
      unit: 'rooftop',
      timestamp: '',
      minute: NaN,
      refrigerant: 'R410A',
      state: s.name === 'clean' ? 'clean' : 'dirty',
      headPa,
      suctionPa: unwrap(dewPressure('R410A', fahrenheit(s.evaporating))),
      airInK: fahrenheit(OUTDOOR_F),
      liquidK: unwrap(bubbleTemperature('R410A', headPa)) - 5.6,
      suctionLineK: fahrenheit(s.evaporating) + 8,
    };
  });
}

const SOURCE =
  'Kim, Frank, Im, Braun, Goldwasser, Leach 2019, Buildings 9(12):239; state means of the records in ' + 'NREL/OpenStudio-fault-models';

export function comparisons(): Comparison[] {
  const results = analyseLog(rows());
  const misses = (read: (i: number) => number | undefined, expected: (s: (typeof STATES)[number]) => number) =>
    worstOf(STATES.slice(1).map((s, i) => (read(i + 1) ?? NaN) - expected(s)));
  return [
    {
      id: 'condenser.field.conductance',
      source: SOURCE,
      quantity: 'Conductance against clean, two fouled states',
      unit: '1',
      tolerance: 0.04,
      expectedSamples: 2,
      ...misses(
        (i) => results[i]?.conductanceRatio?.value,
        (s) => s.conductance,
      ),
    },
    {
      id: 'condenser.field.power',
      source: SOURCE,
      quantity: 'Compressor power against clean, two fouled states',
      unit: '1',
      tolerance: 0.04,
      expectedSamples: 2,
      ...misses(
        (i) => results[i]?.powerRatio?.value,
        (s) => s.power,
      ),
    },
    {
      id: 'condenser.field.cooling',
      source: SOURCE,
      quantity: 'Cooling against clean, two fouled states',
      unit: '1',
      tolerance: 0.03,
      expectedSamples: 2,
      ...misses(
        (i) => results[i]?.coolingRatio?.value,
        (s) => s.cooling,
      ),
    },
  ];
}
