'use client';

import { Button } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { acceptGroup } from '../actions';

/** Keeps all changes of a group. */
export function AcceptGroup({ ids, words }: { ids: string[]; words: string }) {
  const { form, error, busy } = useActionForm(acceptGroup);
  return (
    <ActionForm {...form} className="flex flex-col gap-2">
      <FormErrors errors={error('') ?? error('changeIds')} />
      <input type="hidden" name="changeIds" value={ids.join(' ')} />
      <Button type="submit" look="primary" disabled={busy} className="self-start">
        {busy ? 'Keeping …' : words}
      </Button>
    </ActionForm>
  );
}
