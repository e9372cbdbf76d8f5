import type { ReactNode } from 'react';

type Props = { legend: string; hint?: ReactNode; error?: string[]; children: ReactNode };

/** Several controls that answer one question. */
export function Group({ legend, hint, error, children }: Props) {
  return (
    <fieldset>
      <legend className="font-bold">{legend}</legend>
      {hint ? <p className="text-sm text-soft">{hint}</p> : null}
      {error?.length ? (
        <p role="alert" className="text-sm font-bold text-alarm">
          {error.join(' ')}
        </p>
      ) : null}
      {children}
    </fieldset>
  );
}
