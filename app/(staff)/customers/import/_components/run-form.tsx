'use client';

import { counted } from '@/lib/core/wording/counted';
import { Button } from '../../../../_ui/button';
import { FormErrors } from '../../../../_ui/field';
import { ActionForm } from '../../../../_ui/action-form';
import { useActionForm } from '../../../../_ui/use-action-form';
import { runFleet } from '../actions';

export function RunForm({ runId, units, updates, kitchens }: { runId: string; units: number; updates: number; kitchens: number }) {
  const { form, error, busy } = useActionForm(runFleet);
  return (
    <ActionForm {...form} className="flex flex-col gap-3">
      <FormErrors errors={error('')} />
      <input type="hidden" name="runId" value={runId} />
      <Button look="primary" type="submit" disabled={busy} className="self-start">
        {busy
          ? 'Starting …'
          : units > 0
            ? `Put ${counted(units, 'unit')} on file`
            : updates > 0
              ? `Change ${counted(updates, 'unit')}`
              : `Change ${counted(kitchens, 'kitchen')}`}
      </Button>
    </ActionForm>
  );
}
