/**
 * Distance functions as defined in "TSPLIB 95" (Reinelt 1995): all give whole numbers.
 * The constants (PI to six decimals, Earth's radius 6378.388 km) are part of the definition.
 */
export type Point = readonly [x: number, y: number];
export type Distance = (a: Point, b: Point) => number;

const nint = (value: number): number => Math.floor(value + 0.5);
const straight = (a: Point, b: Point): number => Math.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2);

/** DDD.MM (degrees and minutes) to radians; the whole degrees are cut, not rounded. */
const radians = (value: number): number => {
  const degrees = Math.trunc(value);
  return (3.141592 * (degrees + (5 * (value - degrees)) / 3)) / 180;
};

function geo(a: Point, b: Point): number {
  const q1 = Math.cos(radians(a[1]) - radians(b[1]));
  const q2 = Math.cos(radians(a[0]) - radians(b[0]));
  const q3 = Math.cos(radians(a[0]) + radians(b[0]));
  return Math.trunc(6378.388 * Math.acos(0.5 * ((1 + q1) * q2 - (1 - q1) * q3)) + 1);
}

/** Pseudo-Euclidean. */
function att(a: Point, b: Point): number {
  const r = Math.sqrt(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) / 10);
  const t = nint(r);
  return t < r ? t + 1 : t;
}

export const DISTANCES: Readonly<Record<string, Distance>> = {
  EUC_2D: (a, b) => nint(straight(a, b)),
  CEIL_2D: (a, b) => Math.ceil(straight(a, b)),
  MAN_2D: (a, b) => nint(Math.abs(a[0] - b[0]) + Math.abs(a[1] - b[1])),
  MAX_2D: (a, b) => Math.max(nint(Math.abs(a[0] - b[0])), nint(Math.abs(a[1] - b[1]))),
  GEO: geo,
  ATT: att,
};
