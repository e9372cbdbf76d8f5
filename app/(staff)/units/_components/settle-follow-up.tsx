'use client';

import { Button } from '@/app/_ui/button';
import { Field, FormErrors } from '@/app/_ui/field';
import { useActionForm } from '@/app/_ui/use-action-form';
import { settleFollowUp } from '../actions';

/** Closes a follow-up, folded away until wanted: done, or dropped with the reason. */
export function SettleFollowUp({ followUpId, what }: { followUpId: string; what: string }) {
  const { form, error, busy } = useActionForm(settleFollowUp);
  return (
    <details className="no-print">
      <summary className="inline-flex min-h-9 items-center text-cold underline underline-offset-4">
        Settle<span className="sr-only">: {what}</span>
      </summary>
      <form {...form} className="mt-1 flex flex-wrap items-end gap-3">
        <input type="hidden" name="followUpId" value={followUpId} />
        <div className="min-w-52 max-w-xl flex-1">
          <Field
            id={`settle-${followUpId}`}
            label="What came of it"
            hint="To drop it, say why."
            name="note"
            maxLength={500}
            error={error('note')}
            autoComplete="off"
          />
        </div>
        <div className="flex gap-2">
          <Button type="submit" name="as" value="done" disabled={busy}>
            Done
          </Button>
          <Button type="submit" name="as" value="dropped" disabled={busy}>
            Drop
          </Button>
        </div>
        <div className="w-full empty:hidden">
          <FormErrors errors={error('')} />
        </div>
      </form>
    </details>
  );
}
