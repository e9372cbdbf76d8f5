'use client';

import { startTransition, useActionState, useEffect, useRef, type FormEvent } from 'react';
import type { FormAction } from './use-action-form';

/**
 * A form over an action for pages that customers open: the browser sends it itself where no script runs, so the action must be
 * handed on as it is. With script what was typed stays, whatever the answer, and the first field in error has the focus.
 */
export function usePlainForm<R>(action: FormAction<R>) {
  const [state, run, busy] = useActionState(action, undefined);
  const ref = useRef<HTMLFormElement>(null);
  const failed = state?.reply.status === 'error';
  useEffect(() => {
    if (failed) ref.current?.querySelector<HTMLElement>('[aria-invalid="true"], [role="alert"]')?.focus();
  }, [state, failed]);
  const errors = state?.reply.error ?? {};
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
    error: (name: string): string[] | undefined => errors[name] ?? undefined,
    busy,
    data: state?.data,
  };
}
