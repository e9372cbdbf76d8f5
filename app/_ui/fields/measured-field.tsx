import type { ReactNode } from 'react';
import { entryUnit, shownInForm, type Measure } from '@/lib/core/measures/entry-units';
import { Field } from './field';

type Props = {
  label: ReactNode;
  name: string;
  measure: Measure;
  /** The reader's own unit of that measure. */
  unit: string;
  /** Value on file, SI. */
  si?: number | null;
  hint?: ReactNode;
  error: (name: string) => string[] | undefined;
};

/** A measured value in the reader's unit; the unit is sent along, so that the number cannot be read in another. */
export function MeasuredField({ label, name, measure, unit, si, hint, error }: Props) {
  const entry = entryUnit(measure, unit);
  const onFile = si ?? undefined;
  return (
    <>
      <input type="hidden" name={`${name}.unit`} value={unit} />
      {onFile === undefined ? null : <input type="hidden" name={`${name}.onFile`} value={onFile} />}
      <Field
        label={label}
        unit={entry.label}
        name={`${name}.value`}
        inputMode="decimal"
        autoComplete="off"
        hint={hint}
        defaultValue={onFile === undefined ? '' : shownInForm(measure, unit, onFile)}
        error={error(`${name}.value`) ?? error(name)}
      />
    </>
  );
}
