'use client';

import { ActionForm } from '@/app/_ui/action-form';
import { Button } from '@/app/_ui/button';
import { FormErrors } from '@/app/_ui/field';
import { useActionForm } from '@/app/_ui/use-action-form';
import { takePageBack } from '../../actions';

export function RevokePageForm({ id, holder }: { id: string; holder: string }) {
  const { form, error, busy } = useActionForm(takePageBack);
  return (
    <ActionForm {...form}>
      <FormErrors errors={error('')} />
      <input type="hidden" name="id" value={id} />
      <Button look="quiet" type="submit" disabled={busy} aria-label={`Take the link of ${holder} back`}>
        Take the link back
      </Button>
    </ActionForm>
  );
}
