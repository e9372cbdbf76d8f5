'use client';

import { startTransition, useActionState, useEffect, useRef, type FormEvent } from 'react';
import type { FormAction } from './use-action-form';

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
    /** A field of the form: its name, and what is wrong with it. */
    on: (name: string) => ({ name, error: error(name) }),
    busy,
  };
}
