import type { ComponentProps, ReactNode } from 'react';
import { Options, type Option } from './options';

const BOX =
  'w-full rounded-md border border-edge bg-sheet px-3 py-2 min-h-10 text-ink aria-[invalid=true]:border-alarm aria-[invalid=true]:border-2';

type Frame = { label: ReactNode; name: string; hint?: ReactNode; error?: string[]; unit?: string; id?: string };

/** Label, control, hint and message; the message stands beside its field and is announced. */
function FieldFrame({ label, hint, error, unit, id, children }: Omit<Frame, 'name'> & { id: string; children: ReactNode }) {
  return (
    <div className="flex flex-col gap-1">
      <label htmlFor={id} className="font-bold">
        {label}
        {unit ? <span className="font-normal text-soft"> ({unit})</span> : null}
      </label>
      {children}
      {hint ? (
        <p id={`${id}-hint`} className="text-sm text-soft">
          {hint}
        </p>
      ) : null}
      {error?.length ? (
        <p id={`${id}-error`} className="text-sm font-bold text-alarm" role="alert">
          {error.join(' ')}
        </p>
      ) : null}
    </div>
  );
}

const describedBy = (id: string, hint?: ReactNode, error?: string[]) =>
  [hint ? `${id}-hint` : '', error?.length ? `${id}-error` : ''].filter(Boolean).join(' ') || undefined;

export function Field({ label, hint, error, unit, id, ...rest }: Frame & Omit<ComponentProps<'input'>, 'name' | 'id'>) {
  const key = id ?? `f-${rest.name}`;
  return (
    <FieldFrame label={label} hint={hint} error={error} unit={unit} id={key}>
      <input
        id={key}
        className={BOX}
        aria-invalid={!!error?.length || undefined}
        aria-describedby={describedBy(key, hint, error)}
        {...rest}
      />
    </FieldFrame>
  );
}

export function TextArea({ label, hint, error, id, unit, ...rest }: Frame & Omit<ComponentProps<'textarea'>, 'name' | 'id'>) {
  const key = id ?? `f-${rest.name}`;
  return (
    <FieldFrame label={label} hint={hint} error={error} unit={unit} id={key}>
      <textarea
        id={key}
        rows={3}
        className={BOX}
        aria-invalid={!!error?.length || undefined}
        aria-describedby={describedBy(key, hint, error)}
        {...rest}
      />
    </FieldFrame>
  );
}

export function Select({
  label,
  hint,
  error,
  id,
  unit,
  options,
  blank,
  ...rest
}: Frame & Omit<ComponentProps<'select'>, 'name' | 'id'> & { options: readonly Option[]; blank?: string }) {
  const key = id ?? `f-${rest.name}`;
  return (
    <FieldFrame label={label} hint={hint} error={error} unit={unit} id={key}>
      <select
        id={key}
        className={BOX}
        aria-invalid={!!error?.length || undefined}
        aria-describedby={describedBy(key, hint, error)}
        {...rest}
      >
        {blank !== undefined ? <option value="">{blank}</option> : null}
        <Options of={options} />
      </select>
    </FieldFrame>
  );
}

/** What is wrong with the form as a whole. */
export function FormErrors({ errors }: { errors?: string[] | null }) {
  return errors?.length ? (
    <div role="alert" tabIndex={-1} className="rounded-md border-2 border-alarm bg-alarm-wash px-4 py-3 font-bold text-alarm">
      {errors.join(' ')}
    </div>
  ) : null;
}
