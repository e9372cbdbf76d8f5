'use client';

import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { review } from '../../actions';

/** The owner keeps a change that the findings made, or goes back to the rule before it. */
export function ReviewForm({ changeId, backTo }: { changeId: string; backTo: string }) {
  const keep = useActionForm(review);
  const back = useActionForm(review);
  return (
    <div className="mt-1 flex flex-wrap items-start gap-2">
      <ActionForm {...keep.form}>
        <FormErrors errors={keep.error('')} />
        <Hidden of={{ changeId, verdict: 'accepted' }} />
        <Button type="submit" disabled={keep.busy}>
          Keep it
        </Button>
      </ActionForm>
      <details>
        <summary className="inline-flex min-h-9 items-center px-2 font-bold text-cold underline underline-offset-4">Overrule</summary>
        <ActionForm {...back.form} className="mt-2 flex flex-col gap-3 rounded-md border border-line bg-paper p-4">
          <p className="text-soft">Goes back to {backTo}.</p>
          <FormErrors errors={back.error('')} />
          <Hidden of={{ changeId, verdict: 'overruled' }} />
          <Field id={`overrule-${changeId}`} label="Why" name="reason" error={back.error('reason')} autoComplete="off" />
          <Button type="submit" disabled={back.busy} className="self-start">
            Overrule it
          </Button>
        </ActionForm>
      </details>
    </div>
  );
}
