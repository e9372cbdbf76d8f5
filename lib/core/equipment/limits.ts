/** What an entry may be, in SI. Beyond these it is a slip of the pen, not a kitchen. Forms, files and services share them. */
export const LIMITS = {
  /** m; the lowest and highest places people cook at. The database holds the same bounds. */
  altitudeM: [-430, 5000],
  lat: [-90, 90],
  lng: [-180, 180],
  /** K: 0 to 60 °C at a coil inlet. */
  hotDayAirK: [273.15, 333.15],
  /** Pa: gauges from 100 psi to 400 bar. */
  gaugeSpanPa: [689_475, 40_000_000],
  energyPricePerKwh: [0, 10],
  /** Great-circle distance to road distance, and mean driving speed. */
  circuity: [1, 3],
  /** Minutes that a proposed day may end after its shift. */
  overShiftMinutes: [0, 180],
  speedKmh: [3, 130],
  weeks: [1, 104],
} as const satisfies Record<string, readonly [number, number]>;
export type Limited = keyof typeof LIMITS;

export type Span = readonly [lowest: number, highest: number];
export const within = ([lowest, highest]: Span, value: number): boolean => value >= lowest && value <= highest;

export const NAME_MAX = 120;
export const TEXT_MAX = 4000;
/** Letters, digits, dot, dash and underscore: what a label printer and a camera both manage. */
export const TAG_FORM = /^[A-Z0-9][A-Z0-9._-]{1,39}$/;
