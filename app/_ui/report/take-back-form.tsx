'use client';

import { Hidden } from '../forms/parts';
import { ActionForm } from '../forms/action-form';
import { Button } from '../buttons/button';
import { FormErrors } from '../fields/field';
import { useActionForm, type FormAction } from '../forms/use-action-form';

/** Takes a customer's link back. `whose` tells it from the others of the page. */
export function TakeBackForm({ action, id, whose }: { action: FormAction<void>; id: string; whose: string }) {
  const { form, error, busy } = useActionForm(action);
  return (
    <ActionForm {...form}>
      <FormErrors errors={error('')} />
      <Hidden of={{ id }} />
      <Button look="quiet" type="submit" disabled={busy} aria-label={`Take the link of ${whose} back`}>
        Take the link back
      </Button>
    </ActionForm>
  );
}
