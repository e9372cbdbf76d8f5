'use client';

import { Button } from '../../../../_ui/button';
import { FormErrors } from '../../../../_ui/field';
import { ActionForm } from '../../../../_ui/action-form';
import { useActionForm } from '../../../../_ui/use-action-form';
import { takeBackFleet } from '../actions';

/** Undoes an import while nothing hangs on what it made. */
export function TakeBack({ runId }: { runId: string }) {
  const { form, error, busy } = useActionForm(takeBackFleet);
  return (
    <ActionForm {...form} className="flex flex-col gap-2">
      <FormErrors errors={error('')} />
      <input type="hidden" name="runId" value={runId} />
      <Button type="submit" disabled={busy} className="self-start">
        {busy ? 'Taking it back …' : 'Take this import back'}
      </Button>
    </ActionForm>
  );
}
