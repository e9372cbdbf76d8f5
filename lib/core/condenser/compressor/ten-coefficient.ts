/**
 * Compressor maps in the ten-coefficient form of AHRI 540:
 * X = C1 + C2·S + C3·D + C4·S² + C5·S·D + C6·D² + C7·S³ + C8·D·S² + C9·S·D² + C10·D³,
 * S and D the suction and discharge dew temperatures.
 */
export type TenCoefficients = readonly [number, number, number, number, number, number, number, number, number, number];

/** Makers print maps in °F with lb/h, or in °C with kg/s; power is in watts in both. */
export type MapUnits = 'F_lb_per_h' | 'C_kg_per_s';

export type CompressorMap = {
  massFlow: TenCoefficients;
  power: TenCoefficients;
  units: MapUnits;
  /** Superheat at the compressor for which the map was measured. */
  ratedSuperheatK: number;
};

const LB_PER_H = 0.45359237 / 3600;

export function tenCoefficients(c: TenCoefficients, s: number, d: number): number {
  return c[0] + s * (c[1] + s * (c[3] + s * c[6] + d * c[7]) + d * (c[4] + d * c[8])) + d * (c[2] + d * (c[5] + d * c[9]));
}

/** Mass flow (kg/s) and power (W) of a map at suction and discharge dew temperatures in kelvin. */
export function readMap(map: CompressorMap, suctionDewK: number, dischargeDewK: number) {
  const fahrenheit = map.units === 'F_lb_per_h';
  const own = (k: number) => (fahrenheit ? (k - 273.15) * 1.8 + 32 : k - 273.15);
  const s = own(suctionDewK);
  const d = own(dischargeDewK);
  return {
    massFlow: tenCoefficients(map.massFlow, s, d) * (fahrenheit ? LB_PER_H : 1),
    power: tenCoefficients(map.power, s, d),
  };
}

/**
 * Correction for a superheat other than the map's: ṁ = ṁ_map·[1 + 0.75·(v_map/v − 1)].
 * Dabiri and Rice 1981, as used by the open air-conditioning model ACHP.
 */
export function superheatFactor(rhoActual: number, rhoRated: number): number {
  return 1 + 0.75 * (rhoActual / rhoRated - 1);
}
