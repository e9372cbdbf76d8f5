'use client';

import type { FormAction } from './use-action-form';
import { useSentForm } from './use-sent-form';

/**
 * A form over an action for pages that customers open: the browser sends it itself where no script runs, so the action must be
 * handed on as it is. With script what was typed stays, whatever the answer, and the first field in error has the focus.
 */
export function usePlainForm<R>(action: FormAction<R>) {
  const { form, error, on, busy, state } = useSentForm(action);
  return { form, error, on, busy, data: state?.data };
}
