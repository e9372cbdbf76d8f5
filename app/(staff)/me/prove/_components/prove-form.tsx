'use client';

import { useEffect } from 'react';
import { Button, ButtonLink } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { Notice } from '@/app/_ui/feedback/notice';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { prove } from '../../actions';

export function ProveForm({ to }: { to: string }) {
  const { form, error, on, busy, saved } = useActionForm(prove);
  useEffect(() => {
    // Not the router: what was asked for may be a file.
    if (saved) window.location.assign(to);
  }, [saved, to]);
  if (saved)
    return (
      <Notice title="Thank you" action={<ButtonLink href="/me">My settings</ButtonLink>}>
        What you asked for opens now; if it is a file, look among your downloads.
      </Notice>
    );
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('')} />
      <Field label="Your password" {...on('password')} type="password" autoComplete="current-password" required autoFocus />
      <Button look="primary" type="submit" disabled={busy} className="self-start">
        It is me
      </Button>
    </ActionForm>
  );
}
