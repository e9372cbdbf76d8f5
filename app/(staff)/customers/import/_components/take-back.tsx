'use client';

import { Button } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { takeBackFleet } from '../actions';

/** Undoes an import while nothing hangs on what it made. */
export function TakeBack({ runId }: { runId: string }) {
  const { form, error, busy } = useActionForm(takeBackFleet);
  return (
    <ActionForm {...form} className="flex flex-col gap-2">
      <FormErrors errors={error('')} />
      <Hidden of={{ runId }} />
      <Button type="submit" disabled={busy} className="self-start">
        {busy ? 'Taking it back …' : 'Take this import back'}
      </Button>
    </ActionForm>
  );
}
