/**
 * A condenser in three zones along its face. Gas is cooled and condensed over what liquid leaves free; the flooded
 * share cools liquid by ε-NTU against air, at a part of the condensing zone's conductance per face.
 */

/** Conductance of the liquid zone per face, against the condensing zone (judgement; single-phase film inside). */
const LIQUID_ZONE = 0.6;
/** Fall of ln conductance per unit of non-condensable partial pressure: gas blankets the film (judgement). */
export const BLANKET = 1;

/**
 * Subcooling (K) of a condenser whose flooded share is `flooded` (> 0).
 * @param heatPerKg J/kg given up before the liquid zone
 * @param cpLiquid J/(kg·K)
 * @param riseK condensing over air, @param liquidRiseK bubble point over air
 */
export function subcooling(flooded: number, heatPerKg: number, cpLiquid: number, riseK: number, liquidRiseK: number): number {
  if (flooded <= 0) return 0;
  const ntu = (LIQUID_ZONE * heatPerKg * flooded) / (Math.max(1 - flooded, 0.05) * cpLiquid * riseK);
  return Math.max(0, liquidRiseK) * (1 - Math.exp(-ntu));
}

/** The flooded share that gives a subcooling: the inverse, for the design point. */
export function floodedFor(subcoolingK: number, heatPerKg: number, cpLiquid: number, riseK: number, liquidRiseK: number): number {
  const ntu = -Math.log(Math.max(0.02, 1 - subcoolingK / liquidRiseK));
  const perFace = (LIQUID_ZONE * heatPerKg) / (cpLiquid * riseK);
  return ntu / (perFace + ntu);
}
