'use client';

import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { settleJob } from '../actions';

/** Closes a job, folded away until wanted: done, or declined with the reason. */
export function SettleJob({ jobId, what }: { jobId: string; what: string }) {
  const { form, error, on, busy } = useActionForm(settleJob);
  return (
    <details className="no-print">
      <summary className="inline-flex min-h-9 items-center text-cold underline underline-offset-4">
        Settle<span className="sr-only">: {what}</span>
      </summary>
      <ActionForm {...form} className="mt-1 flex flex-wrap items-end gap-3">
        <Hidden of={{ jobId }} />
        <div className="min-w-52 max-w-xl flex-1">
          <Field
            id={`settle-${jobId}`}
            label="What came of it"
            hint="To decline it, say why."
            {...on('note')}
            maxLength={500}
            autoComplete="off"
          />
        </div>
        <div className="flex gap-2">
          <Button type="submit" name="as" value="done" disabled={busy}>
            Done
          </Button>
          <Button type="submit" name="as" value="declined" disabled={busy}>
            Decline
          </Button>
        </div>
        <div className="w-full empty:hidden">
          <FormErrors errors={error('')} />
        </div>
      </ActionForm>
    </details>
  );
}
