import { Button } from '@/app/_ui/buttons/button';
import { Field } from '@/app/_ui/fields/field';

type Props = {
  values: Record<string, string | undefined>;
  wrong: Record<string, string[] | undefined>;
  currency: string;
  /** Whether a refrigerant is bought by the pound. */
  pounds: boolean;
  /** Said where figures of an earlier decision stand in the fields. */
  from: string;
};

/** Asked in the address, so that a comparison can be sent to somebody as it stands. Nothing is assumed: usual figures are only told. */
export function FiguresForm({ values, wrong, currency, pounds, from }: Props) {
  const box = (name: string, label: string, unit: string, hint?: string) => (
    <Field
      label={label}
      unit={unit}
      name={name}
      inputMode="decimal"
      autoComplete="off"
      defaultValue={values[name] ?? ''}
      error={wrong[name]}
      hint={hint}
    />
  );
  return (
    <form method="get" className="flex flex-col gap-4">
      {from ? <p className="text-soft">{from}</p> : null}
      <div className="grid grid-cols-1 items-start gap-4 sm:grid-cols-2 lg:grid-cols-3">
        {box('coilPrice', 'New coil, fitted', currency, 'Empty leaves that way out.')}
        {box('coilYears', 'The new coil would serve', 'years', 'Often 8 to 12 (common practice).')}
        {box('leftYears', 'The unit has left', 'years', 'If nothing is done.')}
        {box('unitPrice', 'New unit, in its place', currency, 'Empty leaves that way out.')}
        {box('unitYears', 'The new unit would serve', 'years', 'Often 10 to 15 (common practice).')}
        {box('interest', 'What money costs you', '% a year')}
        {box('useKwh', 'This unit uses, clean', 'kWh a year', 'From its plate or data sheet; empty if not known.')}
        {box('newKwh', 'A new one uses', 'kWh a year')}
        {box('callOut', 'A call-out', currency)}
        {pounds ? box('refrigerantPerLb', 'Refrigerant, a pound', currency) : box('refrigerantPerKg', 'Refrigerant, a kilogram', currency)}
      </div>
      <Button look="primary" type="submit" className="self-start">
        Compare
      </Button>
    </form>
  );
}
