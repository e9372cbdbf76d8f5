'use client';

import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { Notice } from '@/app/_ui/feedback/notice';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { askForLink } from '../../actions';

export function ForgottenForm() {
  const { form, error, on, busy, saved } = useActionForm(askForLink);
  if (saved)
    return (
      <Notice title="Look into your mail" action={null}>
        If somebody signs in with this address, a link is on its way. Nothing came after ten minutes? The owner can set a password for you.
      </Notice>
    );
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('')} />
      <Field label="E-mail" {...on('email')} type="email" autoComplete="username" required />
      <Button look="primary" size="touch" type="submit" disabled={busy}>
        Send me a link
      </Button>
    </ActionForm>
  );
}
