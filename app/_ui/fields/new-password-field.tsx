'use client';

import { useState } from 'react';
import { passwordProblem, PASSWORD_RULE } from '@/lib/core/people/password-rule';
import { Field } from './field';
import { State } from '../states/state';

/** A new password with its whole rule beside it, and at each keystroke what is still wrong. */
export function NewPasswordField({
  label = 'New password',
  name = 'password',
  error,
  id,
}: {
  label?: string;
  name?: string;
  error?: string[];
  id?: string;
}) {
  const [typed, setTyped] = useState('');
  const [shown, setShown] = useState(false);
  const problem = typed ? passwordProblem(typed) : null;
  return (
    <div className="flex flex-col gap-1">
      <Field
        id={id}
        label={label}
        name={name}
        type={shown ? 'text' : 'password'}
        autoComplete="new-password"
        error={error}
        hint={PASSWORD_RULE}
        onChange={(e) => setTyped(e.target.value)}
      />
      <div className="flex flex-wrap items-center justify-between gap-x-4 text-sm">
        <span aria-live="polite">
          {typed ? (
            problem ? (
              <State shape="ask" tone="soft">
                {problem}
              </State>
            ) : (
              <State shape="done" tone="cold">
                Strong enough
              </State>
            )
          ) : null}
        </span>
        <label className="flex min-h-8 items-center gap-2">
          <input type="checkbox" checked={shown} onChange={(e) => setShown(e.target.checked)} className="size-4 accent-[var(--cold)]" />
          Show it
        </label>
      </div>
    </div>
  );
}
