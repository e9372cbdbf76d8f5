import * as units from '../measures';

export const MASS_UNITS = ['oz', 'lb', 'g', 'kg'] as const;
export type MassUnit = (typeof MASS_UNITS)[number];
const TO_KG: Record<MassUnit, (x: number) => number> = {
  oz: units.ounceToKilogram,
  lb: units.poundToKilogram,
  g: units.gramToKilogram,
  kg: (x) => x,
};
const NAMES: [RegExp, MassUnit][] = [
  [/^(lbs?|pounds?|#)\.?$/i, 'lb'],
  [/^(oz|ozs|ounces?)\.?$/i, 'oz'],
  [/^(kgs?|kilos?|kilograms?)\.?$/i, 'kg'],
  [/^(g|gr|grams?)\.?$/i, 'g'],
];

/** The unit a column's own name gives, as in "Charge (oz)". */
export function massUnitIn(header: string): MassUnit | null {
  for (const word of header.split(/[^a-z#]+/i)) {
    const found = NAMES.find(([form]) => form.test(word));
    if (found) return found[1];
  }
  return null;
}

/**
 * Kilograms of "1 lb 4 oz", "20oz", "1.25#", "567 g" or, with `bare`, of a number alone. `bare` asks for a unit that the
 * text does not give; null is not a mass at all.
 */
export function readMass(source: string, bare: MassUnit | null): number | 'bare' | null {
  const text = source
    .trim()
    .replace(/(\d),(\d{3})\b/g, '$1$2')
    .replace(/(\d),(\d)/g, '$1.$2');
  if (/^\d+(\.\d+)?$|^\.\d+$/.test(text)) return bare ? TO_KG[bare](Number(text)) : 'bare';
  const parts = [...text.matchAll(/(\d+(?:\.\d+)?|\.\d+)\s*([a-z#]+\.?)/gi)];
  if (parts.length === 0 || text.replace(/(\d+(?:\.\d+)?|\.\d+)\s*([a-z#]+\.?)/gi, '').replace(/[\s,&+]|and/gi, '') !== '') return null;
  let sum = 0;
  for (const [, figure, name] of parts) {
    const unit = NAMES.find(([form]) => form.test(name ?? ''))?.[1];
    if (!unit) return null;
    sum += TO_KG[unit](Number(figure));
  }
  return sum;
}
