/** Conductance of the superheating zone of an evaporator per face, against the boiling zone (judgement). */
const DRY_ZONE = 0.35;

/** Superheat (K) at the outlet of an evaporator whose last `dry` share holds gas only; ε-NTU against its air. */
export function outletSuperheat(dry: number, heatPerKg: number, cpVapour: number, differenceK: number): number {
  if (dry <= 0) return 0;
  const ntu = (DRY_ZONE * heatPerKg * dry) / (Math.max(1 - dry, 0.04) * cpVapour * differenceK);
  return differenceK * (1 - Math.exp(-ntu));
}

/** The dry share that gives a superheat: the inverse, for the design point. */
export function dryFor(superheatK: number, heatPerKg: number, cpVapour: number, differenceK: number): number {
  const ntu = -Math.log(Math.max(0.02, 1 - superheatK / differenceK));
  const perFace = (DRY_ZONE * heatPerKg) / (cpVapour * differenceK);
  return ntu / (perFace + ntu);
}
