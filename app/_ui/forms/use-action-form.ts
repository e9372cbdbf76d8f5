'use client';

import { useRef } from 'react';
import type { SubmissionResult } from '@conform-to/react';
import type { Keeper } from './use-kept-words';
import { useSentForm } from './use-sent-form';

/** The framework's way of saying that the action sends on to another page. */
const sentOn = (e: unknown) => e instanceof Error && 'digest' in e && String(e.digest).startsWith('NEXT_REDIRECT');

/** What a form's action answers: errors by field, and what it made. */
export type FormReply<R> = { reply: SubmissionResult<string[]>; data?: R; code?: string } | undefined;
export type FormAction<R> = (state: FormReply<R>, form: FormData) => Promise<FormReply<R>>;

/**
 * A form over an action. It sends itself, so that React does not empty it afterwards: what was typed stays, whatever the
 * answer. After an answer with errors the first field in error has the focus. What is typed is kept until it is saved;
 * `asks` is for a form whose answer is not the end of it.
 */
export function useActionForm<R>(action: FormAction<R>, { asks = false }: { asks?: boolean } = {}) {
  const keeper = useRef<Keeper>(null);
  const sent: FormAction<R> = async (before, form) => {
    try {
      const answer = await action(before, form);
      if (answer?.reply.status === 'success' && !asks) keeper.current?.saved();
      return answer;
    } catch (e) {
      // An action sends on only after it has done what was asked.
      if (sentOn(e)) keeper.current?.saved();
      throw e;
    }
  };
  // Made on the server, the form goes to the action itself: so it also works where no script runs.
  const { form, state, failed, error, on, busy } = useSentForm(typeof window === 'undefined' ? action : sent);
  return {
    form: { ...form, keeper, signedOut: state?.code === 'not_signed_in' },
    error,
    on,
    busy,
    saved: state?.reply.status === 'success',
    data: state?.data,
    /** What was sent with an answer that has errors: without a script the page is made anew from it. */
    sent: failed ? state?.reply.initialValue : undefined,
  };
}
