import type { MeasureUnits } from '../measures/preferred';
import { refrigerantLabel } from '../refrigerants/naming';
import { nominal, ownUnitOf } from '../measures/entry-units';
import { isKeyOf } from '../typed/closed-set';
import type { UnitField } from './field';
import { UNIT_KEYS, unitField, type UnitKey, type UnitValues } from './unit-fields';

/**
 * A field's value in words, in the reader's units: '' where nothing is on file, null where it is none of what the field
 * can hold, as in an entry that could not be read.
 */
export function fieldWords(field: UnitField, value: unknown, own: MeasureUnits): string | null {
  if (value === null || value === undefined) return '';
  switch (field.type) {
    case 'measured':
      return typeof value === 'number' ? nominal(field.measure, ownUnitOf(field.measure, own), value) : null;
    case 'tick':
      return eitherOf(value, field.statement, '');
    case 'maybe':
      return eitherOf(value, field.answers.yes, field.answers.no);
    case 'choice':
      return textOf(value, (text) => (isKeyOf(field.labels, text) && field.labels[text]) || text);
    case 'refrigerant':
      return textOf(value, refrigerantLabel);
    default:
      return textOf(value, (text) => text.trim());
  }
}

const eitherOf = (value: unknown, yes: string, no: string): string | null => (typeof value === 'boolean' ? (value ? yes : no) : null);
const textOf = (value: unknown, say: (text: string) => string): string | null => (typeof value === 'string' ? say(value) : null);

/** What is on file of a unit, a line a field; what its page says in its head is left out. */
export function unitFacts(unit: Partial<UnitValues>, own: MeasureUnits, without: readonly UnitKey[] = []): [label: string, text: string][] {
  return UNIT_KEYS.filter((key) => !without.includes(key)).flatMap((key): [string, string][] => {
    const field = unitField(key);
    const text = fieldWords(field, unit[key], own) || field.missing || '';
    return text ? [[field.label, text]] : [];
  });
}
