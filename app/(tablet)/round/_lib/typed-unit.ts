import type { UnitField } from '@/lib/core/equipment/field';
import { keysOf } from '@/lib/core/typed/closed-set';
import { UNIT_KEYS, unitField, type UnitKey, type UnitSent } from '@/lib/core/equipment/unit-fields';
import { within } from '@/lib/core/equipment/limits';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { FILED_REFRIGERANTS, UNKNOWN_REFRIGERANT } from '@/lib/core/refrigerants/catalogue';
import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { typedNumber } from '@/lib/core/measures/typed-number';
import { entryUnit, ownUnitOf } from '@/lib/core/measures/entry-units';

/** A unit put on file on the spot, as it is being typed: a text a field. */
export type TypedUnit = Partial<Record<UnitKey, string>>;

export const askedFirst = UNIT_KEYS.filter((key) => unitField(key).tablet === 'asked');
export const askedMore = UNIT_KEYS.filter((key) => unitField(key).tablet === 'more');

const YES_NO = [
  { value: 'yes', label: 'Yes' },
  { value: 'no', label: 'No' },
];
const REFRIGERANTS = [
  { value: '', label: 'Choose, from the nameplate' },
  { value: UNKNOWN_REFRIGERANT, label: 'Nameplate cannot be read' },
  ...FILED_REFRIGERANTS.map(({ id, estimated }) => ({ value: id, label: `${refrigerantLabel(id)}${estimated ? '' : ' (not estimated)'}` })),
];

/** What a field is chosen from; null for one that is typed. */
export function optionsOf(field: UnitField): { value: string; label: string }[] | null {
  if (field.type === 'refrigerant') return REFRIGERANTS;
  if (field.type === 'maybe' || field.type === 'tick')
    return [{ value: '', label: field.type === 'tick' ? 'No' : 'Not known' }, ...YES_NO.slice(0, field.type === 'tick' ? 1 : 2)];
  if (field.type !== 'choice') return null;
  const blank = { required: 'Choose', usual: 'As usual for its kind', unknown: 'Not known' }[field.empty];
  return [{ value: '', label: blank }, ...keysOf(field.labels).map((value) => ({ value, label: field.labels[value] ?? value }))];
}

/** What is wrong with a typed number, or null. */
export function wrongWith(key: UnitKey, typed: string, own: MeasureUnits): string | null {
  const field = unitField(key);
  if (field.type !== 'measured' || !typed.trim()) return null;
  const { toSi, fromSi, label } = entryUnit(field.measure, ownUnitOf(field.measure, own));
  const n = typedNumber(typed);
  if (n === null) return 'That is not a number.';
  const [lo, hi] = field.span.map((x) => Number(fromSi(x).toPrecision(3)));
  return within(field.span, toSi(n)) ? null : `Only ${lo} to ${hi} ${label} can be saved.`;
}

function valueOf(field: UnitField, typed: string, own: MeasureUnits): string | number | boolean | undefined {
  const text = typed.trim();
  if (text === '') return undefined;
  if (field.type === 'tick' || field.type === 'maybe') return text === 'yes';
  if (field.type !== 'measured') return text;
  const n = typedNumber(text);
  return n === null ? undefined : entryUnit(field.measure, ownUnitOf(field.measure, own)).toSi(n);
}

const MUST: readonly UnitKey[] = ['name', 'kind', 'placement', 'refrigerant'];

/** What must be said and is not yet, by the names of its fields. */
export const stillWanted = (typed: TypedUnit): string[] => MUST.filter((key) => !typed[key]?.trim()).map((key) => unitField(key).label);

/** SI, with what nobody typed left out; null while something that must be said is missing, or a number is wrong. */
export function unitTyped(typed: TypedUnit, own: MeasureUnits): UnitSent | null {
  const fields = Object.entries(typed) as [UnitKey, string][];
  if (stillWanted(typed).length > 0) return null;
  if (fields.some(([key, text]) => wrongWith(key, text, own) !== null)) return null;
  return Object.fromEntries(
    fields.flatMap(([key, text]) => {
      const value = valueOf(unitField(key), text, own);
      return value === undefined ? [] : [[key, value]];
    }),
  ) as UnitSent;
}
