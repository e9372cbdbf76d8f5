import type { ReactNode } from 'react';
import { MEASURES } from '@/lib/schemas/measures';
import type { UnitOfEntry } from '@/lib/schemas/fields';
import { Field } from './field';

type Props = {
  label: ReactNode;
  name: string;
  measure: keyof typeof MEASURES;
  /** The reader's own unit of that measure. */
  unit: string;
  /** Value on file, SI. */
  si?: number | null;
  hint?: ReactNode;
  error: (name: string) => string[] | undefined;
};

/** A measured value in the reader's unit; the unit is sent along, so that the number cannot be read in another. */
export function MeasuredField({ label, name, measure, unit, si, hint, error }: Props) {
  const entry = (MEASURES[measure] as Record<string, UnitOfEntry>)[unit];
  if (!entry) throw new Error(`${measure} is not measured in ${unit}`);
  return (
    <>
      <input type="hidden" name={`${name}.unit`} value={unit} />
      <Field
        label={label}
        unit={entry.label}
        name={`${name}.value`}
        inputMode="decimal"
        autoComplete="off"
        hint={hint}
        defaultValue={si === null || si === undefined ? '' : String(Number(entry.fromSi(si).toPrecision(6)))}
        error={error(`${name}.value`) ?? error(name)}
      />
    </>
  );
}
