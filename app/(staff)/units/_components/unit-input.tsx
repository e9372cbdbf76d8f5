import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { unitField, type UnitKey, type UnitValues } from '@/lib/core/equipment/unit-fields';
import { ownUnitOf } from '@/lib/core/measures/entry-units';
import { Check } from '@/app/_ui/fields/check';
import { Field, Select, TextArea } from '@/app/_ui/fields/field';
import { MeasuredField } from '@/app/_ui/fields/measured-field';
import { ChoiceInput } from './choice-input';
import { RefrigerantField } from './refrigerant-field';

type Props = { name: UnitKey; unit?: UnitValues; units: MeasureUnits; error: (name: string) => string[] | undefined };

const YES_NO = [
  { value: 'yes', label: 'Yes' },
  { value: 'no', label: 'No' },
];
const yesNo = (value: unknown) => (value === true ? 'yes' : value === false ? 'no' : '');

/** One field of a unit as the table declares it. */
export function UnitInput({ name, unit, units, error }: Props) {
  const field = unitField(name);
  const value = unit?.[name];
  const said = typeof value === 'string' ? value : undefined;
  const common = { label: field.label, name, hint: field.hint, error: error(name) };
  switch (field.type) {
    case 'measured':
      return (
        <MeasuredField
          label={field.label}
          name={name}
          hint={field.hint}
          measure={field.measure}
          unit={ownUnitOf(field.measure, units)}
          si={typeof value === 'number' ? value : null}
          error={error}
        />
      );
    case 'choice':
      return <ChoiceInput field={field} name={name} blank="Not known" defaultValue={said ?? ''} error={error(name)} />;
    case 'maybe':
      return <Select {...common} options={YES_NO} blank="Not known" defaultValue={yesNo(value)} />;
    case 'tick':
      return <Check name={name} defaultChecked={value === true} label={field.label} hint={field.hint} />;
    case 'refrigerant':
      return <RefrigerantField value={said} error={error(name)} />;
    case 'tag':
      return <Field {...common} defaultValue={said} hint={unit ? field.hint : 'Made for you when empty.'} autoComplete="off" />;
    case 'text':
      return field.long ? <TextArea {...common} defaultValue={said} /> : <Field {...common} defaultValue={said} autoComplete="off" />;
  }
}
