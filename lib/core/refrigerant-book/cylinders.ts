import type { LocalDate } from '../calendar';
import type { CylinderWay } from './ways';

/** What a cylinder holds by its weighings, against what the scale says. Masses in kg. */

export const CYLINDER_CONTENTS = ['new', 'recovered'] as const;
export type CylinderContents = (typeof CYLINDER_CONTENTS)[number];

export type Weighing = {
  on: LocalDate;
  /** Out of the cylinder is negative, into it positive. */
  kg: number;
  /** Where it went or came from. */
  way: CylinderWay;
};

export type Cylinder = {
  tareKg: number;
  /** Gas in it when it came on file. */ firstKg: number;
  /** Largest gas weight it may hold. */ mostKg: number;
};

export type CylinderBalance = {
  bookKg: number;
  /** What the scale says is in it; null where it was not weighed. */
  scaleKg: number | null;
  /** Scale less book. */
  differenceKg: number | null;
  sdKg: number;
  verdict: 'agrees' | 'differs' | 'not_weighed' | 'overfilled' | 'below_nothing';
};

/** Half a division of a charging scale of 5 g, each time one weighs: judgement. */
const SCALE_SD_KG = 0.003;
/** One false alarm in a hundred, either way. */
const ALARM = 2.576;

/**
 * @param grossKg the cylinder on the scale now, null where not weighed
 * @param scaleSdKg repeatability of one weighing, kg
 */
export function cylinderBalance(
  cylinder: Cylinder,
  weighings: readonly Weighing[],
  grossKg: number | null,
  scaleSdKg = SCALE_SD_KG,
): CylinderBalance {
  const bookKg = cylinder.firstKg + weighings.reduce((sum, w) => sum + w.kg, 0);
  // Each entry is the difference of two weighings, the balance one more at either end.
  const sdKg = scaleSdKg * Math.sqrt(2 * weighings.length + 2);
  const scaleKg = grossKg === null ? null : grossKg - cylinder.tareKg;
  const differenceKg = scaleKg === null ? null : scaleKg - bookKg;
  const verdict = verdictOf(cylinder, { bookKg, scaleKg, differenceKg, sdKg });
  return { bookKg, scaleKg, differenceKg, sdKg, verdict };
}

function verdictOf(cylinder: Cylinder, b: Omit<CylinderBalance, 'verdict'>): CylinderBalance['verdict'] {
  if (Math.max(b.bookKg, b.scaleKg ?? -Infinity) > cylinder.mostKg + ALARM * b.sdKg) return 'overfilled';
  if (b.bookKg < -ALARM * b.sdKg) return 'below_nothing';
  if (b.differenceKg === null) return 'not_weighed';
  return Math.abs(b.differenceKg) > ALARM * b.sdKg ? 'differs' : 'agrees';
}
