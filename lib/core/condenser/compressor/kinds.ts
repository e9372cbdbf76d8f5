import { BEST_RATIO, EFFICIENCY_FALL } from './published';

/** Constants typical of a kind of compressor; none was fitted to a record used as a check. */
export type CompressorConstants = {
  clearance: number;
  exponent: number;
  /** Isentropic work over electrical power at the best pressure ratio. */
  ratedEfficiency: number;
  /** Relative fall of efficiency per square of ln(pressure ratio / the best ratio); see `published.ts`. */
  efficiencyFall: number;
  /** Pressure ratio at which it is at its best. */
  bestRatio: number;
  /** Part of the shaft power that the shell gives to the room instead of the gas. */
  shellLoss: number;
};

export type CompressorKind = 'small_reciprocating' | 'reciprocating' | 'scroll';

/**
 * Reciprocating: efficiencies and clearances as the published tables show them (`published.ts`); a hermetic of a few
 * hundred watts stands at the low end. A scroll has leakage, hardly clearance; most of
 * its losses are fixed, so it gains with ratio in the range met here, as in semi-empirical models such as Winandy, Saavedra
 * and Lebrun 2002 (from memory). One open map of an air-conditioning scroll (ACHP) falls off from 2.6 instead: not settled.
 * Shell losses: common practice, from memory.
 */
const TYPICAL_COMPRESSOR: Record<CompressorKind, CompressorConstants> = {
  small_reciprocating: {
    clearance: 0.07,
    exponent: 1.1,
    ratedEfficiency: 0.55,
    efficiencyFall: EFFICIENCY_FALL,
    bestRatio: BEST_RATIO,
    shellLoss: 0.36,
  },
  reciprocating: {
    clearance: 0.052,
    exponent: 1.1,
    ratedEfficiency: 0.63,
    efficiencyFall: EFFICIENCY_FALL,
    bestRatio: BEST_RATIO,
    shellLoss: 0.19,
  },
  scroll: { clearance: 0.012, exponent: 1.1, ratedEfficiency: 0.68, efficiencyFall: 0.2, bestRatio: 5, shellLoss: 0.05 },
};

/**
 * Low-temperature models have less clearance: pumping falls by 33 to 38 % from a ratio of 5.2 to 13.3 (`published.ts`). This
 * makes it 37 %: in that range, and with the rise of power per kelvin that the same tables show (less clearance, more rise).
 */
const LOW_CLEARANCE = 0.0505;

export function typicalCompressor(kind: CompressorKind, low = false): CompressorConstants {
  const typical = TYPICAL_COMPRESSOR[kind];
  return low && kind !== 'scroll' ? { ...typical, clearance: LOW_CLEARANCE } : typical;
}
