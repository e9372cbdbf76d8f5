/** Superheat that a thermostatic valve keeps at the evaporator's outlet, K (common practice, from memory: 6 to 12 °F). */
export const VALVE_SUPERHEAT_K = 5;
/** Part of its full opening that a valve needs at the design point (common practice, from memory). */
export const DESIGN_OPENING = 0.6;
const KNEE = 0.08;
/** How fast superheat climbs once a valve stands wide open, K per ln of what is missing (judgement). */
const STARVING_K = 50;

/** Superheat (K) for ln of wanted flow over the flow of the wide open valve. */
export function valveSuperheat(lnOpening: number): number {
  const x = lnOpening / KNEE;
  const softplus = x > 30 ? x : Math.log1p(Math.exp(x));
  return VALVE_SUPERHEAT_K + STARVING_K * KNEE * softplus;
}
