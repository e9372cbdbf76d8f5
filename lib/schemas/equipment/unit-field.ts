import { z } from 'zod';
import { text } from '../values/text';
import type { UnitField } from '../../core/equipment/field';
import { keysOf } from '../../core/typed/closed-set';
import { unitField, UNIT_KEYS, type UnitKey, type UnitSent, type UnitValues } from '../../core/equipment/unit-fields';
import { NAME_MAX, TAG_FORM } from '../../core/equipment/limits';
import { isFiledRefrigerant } from '../../core/refrigerants/catalogue';
import { Measured, Name, Ticked, FreeText } from '../values/fields';

/** The table of a unit's fields as zod, once for the office's form and once for what a tablet sends. */

const Tag = text()
  .transform((t) => t.toUpperCase())
  .refine((t) => TAG_FORM.test(t), '2 to 40 letters, digits, dots, dashes and underscores.')
  .optional();

const MAYBE: Record<string, boolean | null> = { yes: true, no: false };

/** As a form sends it: strings, a checkbox, a number with the unit it was typed in. */
function formField(field: UnitField): z.ZodType {
  switch (field.type) {
    case 'tag':
      return Tag;
    case 'text':
      return field.required ? Name('the unit') : FreeText(field.max);
    case 'refrigerant':
      return text({ error: 'Choose the refrigerant on the nameplate.' }).refine(isFiledRefrigerant, 'Choose one from the list.');
    case 'choice': {
      const choice = z.enum(keysOf(field.labels), { error: `Choose: ${field.label.charAt(0).toLowerCase()}${field.label.slice(1)}.` });
      return field.empty === 'unknown' ? choice.optional().transform((v) => v ?? null) : choice;
    }
    case 'measured':
      return Measured(field.span, field.measure);
    case 'tick':
      return Ticked;
    case 'maybe':
      return z
        .enum(['yes', 'no'])
        .optional()
        .transform((v) => (v ? (MAYBE[v] ?? null) : null));
  }
}

/** As a tablet sends it: SI, null where not known. A tablet that does not know a field yet leaves it out. */
function sentField(field: UnitField): z.ZodType {
  switch (field.type) {
    case 'tag':
    case 'text':
      return field.type === 'text' && field.required
        ? text().min(1).max(NAME_MAX)
        : text()
            .max(field.type === 'text' ? Math.min(field.max, 2000) : NAME_MAX)
            .optional();
    case 'refrigerant':
      return text().min(1).max(20);
    case 'choice': {
      const choice = z.enum(keysOf(field.labels));
      return field.empty === 'required' ? choice : field.empty === 'usual' ? choice.optional() : choice.nullable().optional();
    }
    case 'measured':
      return z.number().min(field.span[0]).max(field.span[1]).nullable().optional();
    case 'tick':
      return z.boolean().optional();
    case 'maybe':
      return z.boolean().nullable().optional();
  }
}

const eachField = <T>(keys: readonly UnitKey[], make: (field: UnitField) => T) =>
  Object.fromEntries(keys.map((key) => [key, make(unitField(key))]));

/** A new unit may come without a tag: one is made. */
type FormValues = Omit<UnitValues, 'tag'> & { tag?: string };
export const UNIT_FORM = eachField(UNIT_KEYS, formField) as { [K in UnitKey]: z.ZodType<FormValues[K]> };

const SENT_KEYS = UNIT_KEYS.filter((key) => key !== 'tag');
export const UNIT_SENT = eachField(SENT_KEYS, sentField) as { [K in keyof UnitSent]-?: z.ZodType<UnitSent[K]> };
