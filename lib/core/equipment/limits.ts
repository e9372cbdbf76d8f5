/** What an entry may be, in SI. Beyond these it is a slip of the pen, not a kitchen. Forms, files and services share them. */
export const LIMITS = {
  /** m; the lowest and highest places people cook at. The database holds the same bounds. */
  altitudeM: [-430, 5000],
  lat: [-90, 90],
  lng: [-180, 180],
  /** K: 0 to 60 °C at a coil inlet. */
  hotDayAirK: [273.15, 333.15],
  /** K: −60 to 25 °C in a box. */
  boxSetK: [213.15, 298.15],
  /** kg: from a countertop display to a rack on a roof. */
  chargeKg: [0.005, 500],
  /** Pa above atmosphere: 30 psig to 150 bar (carbon dioxide). */
  cutoutPaGauge: [206_843, 15_000_000],
  /** Pa: gauges from 100 psi to 400 bar. */
  gaugeSpanPa: [689_475, 40_000_000],
  energyPricePerKwh: [0, 10],
  /** Great-circle distance to road distance, and mean driving speed. */
  circuity: [1, 3],
  speedKmh: [3, 130],
  weeks: [1, 104],
} as const satisfies Record<string, readonly [number, number]>;
export type Limited = keyof typeof LIMITS;

export const within = (what: Limited, value: number): boolean => value >= LIMITS[what][0] && value <= LIMITS[what][1];

export const NAME_MAX = 120;
export const TEXT_MAX = 4000;
/** Letters, digits, dot, dash and underscore: what a label printer and a camera both manage. */
export const TAG_FORM = /^[A-Z0-9][A-Z0-9._-]{1,39}$/;
