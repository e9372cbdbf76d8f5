import { MEASURES } from '../measures/entry-units';
import { unitNamed } from '../measures/typed';

export const MASS_UNITS = ['oz', 'lb', 'g', 'kg'] as const;
export type MassUnit = (typeof MASS_UNITS)[number];

/** The unit a column's own name gives, as in "Charge (oz)". */
export function massUnitIn(header: string): MassUnit | null {
  for (const word of header.split(/[^a-z#]+/i)) {
    const toSi = unitNamed('mass', word);
    const found = MASS_UNITS.find((unit) => MEASURES.mass[unit].toSi === toSi);
    if (found) return found;
  }
  return null;
}

const FRACTIONS: Record<string, string> = { '¼': '1/4', '½': '1/2', '¾': '3/4', '⅓': '1/3', '⅔': '2/3', '⅛': '1/8' };
const NUMBER = /(?:(\d+)[\s-]+)?(\d+)\/([1-9]\d?)(?!\d)/g;

/** "1 1/2", "1½" and "3/4" as decimals; a comma before three digits marks thousands, unless nothing stands before it. */
const inDecimals = (text: string): string =>
  text
    .replace(/[¼½¾⅓⅔⅛]/g, (f) => ` ${FRACTIONS[f] ?? f}`)
    .replace(NUMBER, (_, whole: string | undefined, part: string, of: string) => String(Number(whole ?? 0) + Number(part) / Number(of)))
    .replace(/(?<![\d.,])([1-9]\d{0,2}),(\d{3})\b/g, '$1$2')
    .replace(/(\d),(\d)/g, '$1.$2')
    .trim();

/**
 * Kilograms of "1 lb 4 oz", "20oz", "1.25#", "1 1/2 lb", "567 g" or, with `bare`, of a number alone. `bare` asks for a unit that
 * the text does not give; null is not a mass at all.
 */
export function readMass(source: string, bare: MassUnit | null): number | 'bare' | null {
  const text = inDecimals(source);
  if (/^\d+(\.\d+)?$|^\.\d+$/.test(text)) return bare ? MEASURES.mass[bare].toSi(Number(text)) : 'bare';
  const parts = [...text.matchAll(/(\d+(?:\.\d+)?|\.\d+)\s*([a-z#]+\.?)/gi)];
  if (parts.length === 0 || text.replace(/(\d+(?:\.\d+)?|\.\d+)\s*([a-z#]+\.?)/gi, '').replace(/[\s,&+]|and/gi, '') !== '') return null;
  let sum = 0;
  for (const [, figure, name = ''] of parts) {
    const toKg = unitNamed('mass', name);
    if (!toKg) return null;
    sum += toKg(Number(figure));
  }
  return sum;
}
