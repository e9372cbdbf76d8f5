import { safetyClassOf, type SafetyClass } from './catalogue';

/** What stands beside every step on a refrigerant. Always ends with local code and licensed practice. */
export type Safety = {
  safetyClass: SafetyClass;
  /** The class in words. */
  meaning: string;
  flammable: boolean;
  cautions: readonly string[];
};

/** ASHRAE 34 groups in words, from memory. */
export const SAFETY_WORDS: Record<SafetyClass, string> = {
  A1: 'no flame propagation',
  A2L: 'burns slowly',
  A2: 'flammable',
  A3: 'highly flammable',
};

// Common practice, from memory: the maker's instructions and local code decide.
const PRESSURE = 'Under pressure: eye protection and gloves; frostbite from liquid, suffocation in a closed room.';
const LOCAL = 'Only trained and licensed people open the circuit; local code and the maker’s instructions come first.';
const FLAMMABLE = [
  'No ignition source: no flame, no sparks, no switching near a leak; ventilate before and during work.',
  'Like-for-like sealed parts only: an open relay, switch or fan motor can ignite a leak.',
  'Use a leak detector, recovery machine and vacuum pump rated for flammable refrigerants.',
  'Never charge it into a cabinet that was not built for it.',
];
const CARBON_DIOXIDE =
  'Very high pressure, also at standstill: gauges, hoses and cylinder must be rated for R-744, or the circuit stays shut.';

/** Safety class and cautions of a refrigerant; undefined for one that is not known here, which is no all-clear. */
export function safetyOf(id: string): Safety | undefined {
  const safetyClass = safetyClassOf(id);
  if (!safetyClass) return undefined;
  const flammable = safetyClass !== 'A1';
  return {
    safetyClass,
    meaning: SAFETY_WORDS[safetyClass],
    flammable,
    cautions: [...(flammable ? FLAMMABLE : []), PRESSURE, ...(id === 'R744' ? [CARBON_DIOXIDE] : []), LOCAL],
  };
}
