/**
 * Volumetric efficiency with clearance, ηv = 1 + c − c·(p₂/p₁)^(1/n): gas left in the clearance expands
 * and takes the place of fresh gas. Textbook form; c the clearance ratio, n the polytropic exponent.
 * Returns 0 where re-expansion would fill the whole cylinder.
 */
export function volumetricEfficiency(pressureRatio: number, clearance: number, exponent: number): number {
  return Math.max(0, 1 + clearance - clearance * Math.pow(pressureRatio, 1 / exponent));
}
