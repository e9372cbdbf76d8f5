'use client';

import { Button } from '../../../../_ui/button';
import { FormErrors } from '../../../../_ui/field';
import { ActionForm } from '../../../../_ui/action-form';
import { useActionForm } from '../../../../_ui/use-action-form';
import { makeArchive } from '../actions';

export function MakeForm() {
  const { form, error, busy } = useActionForm(makeArchive);
  return (
    <ActionForm {...form} className="flex flex-col gap-3">
      <FormErrors errors={error('')} />
      <Button look="primary" type="submit" disabled={busy} className="self-start">
        {busy ? 'Asking …' : 'Make the archive'}
      </Button>
    </ActionForm>
  );
}
