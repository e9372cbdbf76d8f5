'use client';

import { Button } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
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
