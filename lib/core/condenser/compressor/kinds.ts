/** Constants typical of a kind of compressor: common practice, from memory; none was fitted to a record used as a check. */
export type CompressorConstants = {
  clearance: number;
  exponent: number;
  /** Isentropic work over shaft power at the rating point. */
  ratedEfficiency: number;
  /** Part of the losses that grows with isentropic work: 0 all fixed, 1 a constant efficiency. */
  lossGrowth: number;
  /** Part of the shaft power that the shell gives to the room instead of the gas. */
  shellLoss: number;
  /** Rating point, dew temperatures (AHRI 540: 45/130, 20/120 and −25/105 °F), where the fixed losses are set. */
  rating: { evaporatingK: number; condensingK: number; superheatK: number };
};

export const RATING_POINTS = {
  air_conditioning: { evaporatingK: 280.37, condensingK: 327.59, superheatK: 11.1 },
  medium: { evaporatingK: 266.48, condensingK: 322.04, superheatK: 11.1 },
  low: { evaporatingK: 241.48, condensingK: 313.71, superheatK: 11.1 },
} as const;

export type CompressorKind = 'small_reciprocating' | 'reciprocating' | 'scroll';

type Typical = Omit<CompressorConstants, 'rating'>;

/**
 * Clearance 4 % with n = 1.1 is usual for small reciprocating machines; a scroll has leakage, hardly clearance.
 * Most of the losses (friction, idle motor) are fixed; a part of about a tenth of the isentropic work grows with
 * it (motor windings), as in semi-empirical compressor models such as Winandy, Saavedra and Lebrun 2002, from memory.
 */
const TYPICAL_COMPRESSOR: Record<CompressorKind, Typical> = {
  small_reciprocating: { clearance: 0.04, exponent: 1.1, ratedEfficiency: 0.58, lossGrowth: 0.25, shellLoss: 0.2 },
  reciprocating: { clearance: 0.04, exponent: 1.1, ratedEfficiency: 0.63, lossGrowth: 0.25, shellLoss: 0.12 },
  scroll: { clearance: 0.012, exponent: 1.1, ratedEfficiency: 0.7, lossGrowth: 0.25, shellLoss: 0.05 },
};

export function typicalCompressor(kind: CompressorKind, point: keyof typeof RATING_POINTS): CompressorConstants {
  return { ...TYPICAL_COMPRESSOR[kind], rating: RATING_POINTS[point] };
}
