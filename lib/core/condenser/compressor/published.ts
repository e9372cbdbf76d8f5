/**
 * How small refrigeration compressors fall off with pressure ratio. Read from open performance tables: the capacity
 * and power curves of CDH Energy Corp. that ship with EnergyPlus (datasets/RefrigerationCompressorCurves.idf), with
 * mass flow and isentropic work worked out from them by the properties of this program.
 * - Overall efficiency is flat: welded hermetic R-404A medium (14–20 size, 1.8–2.5 kW) 0.58–0.64 at ratio 2.4, 0.60–0.67
 *   at 3–4, 0.61–0.64 at 5.6; small semi-hermetic R-404A and R-507A low 0.50–0.58 at 5.2, 0.44–0.54 at 9, 0.36–0.49 at
 *   13.5; semi-hermetic R-134a 0.667 at 2.6, 0.699 at 4.5, 0.689 at 6.9.
 * - Pumping falls by 30–35 % from ratio 2.4 to 5.6 (welded hermetic), by 15–17 % from 2.6 to 6.9 (semi-hermetic R-134a),
 *   by 33–38 % from 5.2 to 13.3 (small low-temperature): clearances of 0.045 to 0.085 in the clearance formula.
 */
export const BEST_RATIO = 5;
/** Relative fall of efficiency per square of ln(ratio / best ratio). */
export const EFFICIENCY_FALL = 0.13;

export type Falling = { ratedEfficiency: number; efficiencyFall: number; bestRatio: number };

/** Isentropic work over electrical power at a pressure ratio. */
export function efficiencyAt({ ratedEfficiency, efficiencyFall, bestRatio }: Falling, pressureRatio: number): number {
  const off = Math.log(Math.max(1.05, pressureRatio) / bestRatio);
  return ratedEfficiency * Math.max(0.25, 1 - efficiencyFall * off * off);
}
