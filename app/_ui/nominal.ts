import { MEASURES } from '@/lib/schemas/measures';
import type { UnitOfEntry } from '@/lib/schemas/fields';

/** A nominal value from a nameplate or a setting in the reader's unit: "5.3 oz". Measured results are written with a band instead. */
export function nominal(measure: keyof typeof MEASURES, unit: string, si: number | null, digits = 3): string {
  const entry = (MEASURES[measure] as Record<string, UnitOfEntry>)[unit];
  if (!entry || si === null) return '';
  return `${Number(entry.fromSi(si).toPrecision(digits)).toString().replace('-', '−')} ${entry.label}`;
}
