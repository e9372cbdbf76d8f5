import type { Kilogram } from './quantities';

/** International avoirdupois pound, exact. */
export const POUND_KG = 0.45359237;

export const poundToKilogram = (x: number) => (x * POUND_KG) as Kilogram;
export const kilogramToPound = (x: number) => x / POUND_KG;
export const ounceToKilogram = (x: number) => ((x * POUND_KG) / 16) as Kilogram;
export const kilogramToOunce = (x: number) => (x / POUND_KG) * 16;
export const gramToKilogram = (x: number) => (x / 1000) as Kilogram;
export const kilogramToGram = (x: number) => x * 1000;

/** "2 lb 3.5 oz" the way a charge is weighed in. */
export function poundsAndOunces(kg: number): { pounds: number; ounces: number } {
  const tenths = Math.round(kilogramToOunce(kg) * 10);
  return { pounds: Math.floor(tenths / 160), ounces: (tenths % 160) / 10 };
}
