'use client';

import { counted } from '@/lib/core/wording/counted';
import { Button } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { runFleet } from '../actions';

export function RunForm({ runId, units, updates, kitchens }: { runId: string; units: number; updates: number; kitchens: number }) {
  const { form, error, busy } = useActionForm(runFleet);
  return (
    <ActionForm {...form} className="flex flex-col gap-3">
      <FormErrors errors={error('')} />
      <Hidden of={{ runId }} />
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
