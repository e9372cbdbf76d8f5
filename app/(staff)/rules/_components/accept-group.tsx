'use client';

import { Button } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { acceptGroup } from '../actions';

/** Keeps all changes of a group. */
export function AcceptGroup({ ids, label }: { ids: string[]; label: string }) {
  const { form, error, busy } = useActionForm(acceptGroup);
  return (
    <ActionForm {...form} className="flex flex-col gap-2">
      <FormErrors errors={error('') ?? error('changeIds')} />
      <Hidden of={{ changeIds: ids.join(' ') }} />
      <Button type="submit" look="primary" disabled={busy} className="self-start">
        {busy ? 'Keeping …' : label}
      </Button>
    </ActionForm>
  );
}
