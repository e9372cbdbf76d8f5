'use client';

import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { setLock } from '../../units/actions';

/** Locks the rule as it stands now. */
export function LockRule({ taskId, version }: { taskId: string; version: number }) {
  const { form, error, on, busy } = useActionForm(setLock);
  return (
    <details className="mt-1 open:w-full">
      <summary className="inline-flex min-h-9 items-center px-2 font-bold text-cold underline underline-offset-4">Lock</summary>
      <ActionForm {...form} className="mt-2 flex max-w-2xl flex-col gap-3 rounded-md border border-line bg-paper p-4">
        <p className="text-soft">The rule stays as it is now, whatever is found. What the findings would have done is still told.</p>
        <FormErrors errors={error('')} />
        <Hidden of={{ taskId, version, lock: 'lock' }} />
        <Field id={`lock-rule-${taskId}`} label="Why" {...on('reason')} autoComplete="off" />
        <Button type="submit" disabled={busy} className="self-start">
          Lock the rule
        </Button>
      </ActionForm>
    </details>
  );
}
