'use client';

import { useState, useTransition } from 'react';
import { chooseSheet } from '../actions';

type Of = 'sheet' | 'column' | 'answer' | 'kind' | 'placement' | 'refrigerant';
type Props = {
  runId: string;
  of: Of;
  /** What is decided, within its kind. */
  about: string;
  value: string;
  options: readonly { value: string; label: string }[];
  label: string;
  labelHidden?: boolean;
};

/** One decision about a sheet, kept as soon as it is made. */
export function Choose({ runId, of, about, value, options, label, labelHidden = false }: Props) {
  const [busy, start] = useTransition();
  const [error, setError] = useState('');
  const id = `choose-${of}-${about.replace(/\W+/g, '-')}`;
  return (
    <div className="flex min-w-0 flex-col gap-1">
      <label htmlFor={id} className={labelHidden ? 'sr-only' : 'font-bold'}>
        {label}
      </label>
      <select
        id={id}
        key={value}
        defaultValue={value}
        aria-busy={busy}
        onChange={(e) => {
          const chosen = e.target.value;
          start(async () => {
            const r = await chooseSheet({ runId, of, key: about, value: chosen });
            setError(r.ok ? '' : r.message);
          });
        }}
        className={`min-h-10 w-full min-w-0 rounded-md border bg-sheet px-2 ${value === '' && options.every((o) => o.value !== '') ? 'border-2 border-alarm' : 'border-edge'}`}
      >
        {options.every((o) => o.value !== value) ? <option value={value}>{value === '' ? 'Choose …' : value}</option> : null}
        {options.map((o) => (
          <option key={o.value} value={o.value}>
            {o.label}
          </option>
        ))}
      </select>
      {error ? (
        <p role="alert" className="text-sm font-bold text-alarm">
          {error}
        </p>
      ) : null}
    </div>
  );
}
