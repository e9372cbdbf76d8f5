'use client';

import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { settle } from '../actions';

/** Takes an entry off the list of what the office has to look at. */
export function SettleForm({ entryId, about }: { entryId: string; about: string }) {
  const { form, error, on, busy } = useActionForm(settle);
  return (
    <ActionForm {...form} className="flex flex-wrap items-end gap-3 no-print">
      <Hidden of={{ entryId }} />
      <div className="min-w-60 flex-1 [&_input]:min-h-11">
        <Field id={`note-${entryId}`} label="What was done, if anything" {...on('note')} maxLength={500} autoComplete="off" />
      </div>
      <Button type="submit" disabled={busy} className="min-h-11" aria-describedby={about}>
        {busy ? 'Saving …' : 'Looked at'}
      </Button>
      <div className="w-full empty:hidden">
        <FormErrors errors={error('')} />
      </div>
    </ActionForm>
  );
}
