'use client';

import { startTransition, useActionState, useEffect, useRef, type FormEvent } from 'react';
import type { FormAction } from './use-action-form';

/** A field of a form by its name: the name it is sent under, and what is wrong with it. */
export type On = (name: string) => { name: string; error: string[] | undefined };

/** A form that sends itself, so that React does not empty it: what was typed stays. After errors the first field in error has the focus. */
export function useSentForm<R>(action: FormAction<R>) {
  const [state, run, busy] = useActionState(action, undefined);
  const ref = useRef<HTMLFormElement>(null);
  const failed = state?.reply.status === 'error';
  useEffect(() => {
    if (failed) ref.current?.querySelector<HTMLElement>('[aria-invalid="true"], [role="alert"]')?.focus();
  }, [state, failed]);
  const errors = state?.reply.error ?? {};
  const error = (name: string): string[] | undefined => errors[name] ?? undefined;
  const on: On = (name) => ({ name, error: error(name) });
  return {
    form: {
      ref,
      action: run,
      noValidate: true,
      onSubmit(event: FormEvent<HTMLFormElement>) {
        event.preventDefault();
        const typed = new FormData(event.currentTarget, (event.nativeEvent as SubmitEvent).submitter);
        startTransition(() => run(typed));
      },
    },
    state,
    failed,
    /** Messages of a field; of the form as a whole for ''. */
    error,
    on,
    busy,
  };
}
