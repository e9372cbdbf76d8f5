/**
 * Lower flammability limits, kg/m³ of air at 25 °C, as in ISO 817 and EN 378-1 annex E: from memory. A gas that is not here
 * gets no figure.
 */
const LFL_KG_M3: Readonly<Record<string, number>> = {
  R290: 0.038,
  R600a: 0.043,
  R152a: 0.13,
  R32: 0.307,
  R1234yf: 0.289,
  'R1234ze(E)': 0.303,
  R454A: 0.278,
  R454C: 0.293,
  R455A: 0.431,
};

/** Height of the layer that a leak is reckoned to fill, m: EN 378-1's room height for units on the floor (from memory). */
const HEIGHT_M = 2.2;
/** A leaked charge is kept below this share of the limit: common practice, and what alarms are set to. */
const QUARTER = 0.25;

export type RoomShare = {
  /** Of the lower flammability limit, were the whole charge spread evenly through the room. */
  share: number;
  /** Floor from which the share is a quarter, m². */
  leastM2: number;
  verdict: 'below_quarter' | 'above_quarter' | 'burns';
};

/** How near a room would come to burning if the whole charge (kg) leaked into its floor area (m²); null where no limit is known. */
export function roomShare(refrigerant: string, chargeKg: number, roomM2: number): RoomShare | null {
  const limit = LFL_KG_M3[refrigerant];
  if (limit === undefined || !(chargeKg > 0 && roomM2 > 0)) return null;
  const share = chargeKg / (roomM2 * HEIGHT_M * limit);
  return {
    share,
    leastM2: chargeKg / (QUARTER * HEIGHT_M * limit),
    verdict: share >= 1 ? 'burns' : share > QUARTER ? 'above_quarter' : 'below_quarter',
  };
}
