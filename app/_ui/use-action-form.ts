'use client';

import { startTransition, useActionState, useEffect, useRef, type FormEvent } from 'react';
import type { SubmissionResult } from '@conform-to/react';

/** What a form's action answers: errors by field, and what it made. */
export type FormReply<R> = { reply: SubmissionResult<string[]>; data?: R } | undefined;
export type FormAction<R> = (state: FormReply<R>, form: FormData) => Promise<FormReply<R>>;

/**
 * A form over an action. It sends itself, so that React does not empty it afterwards: what was typed stays, whatever the
 * answer. After an answer with errors the first field in error has the focus.
 */
export function useActionForm<R>(action: FormAction<R>) {
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
        const sent = new FormData(event.currentTarget, (event.nativeEvent as SubmitEvent).submitter);
        startTransition(() => run(sent));
      },
    },
    /** Messages of a field; of the form as a whole for ''. */
    error: (name: string): string[] | undefined => errors[name] ?? undefined,
    busy,
    saved: state?.reply.status === 'success',
    data: state?.data,
    /** What was sent with an answer that has errors: without a script the page is made anew from it. */
    sent: failed ? state.reply.initialValue : undefined,
  };
}
