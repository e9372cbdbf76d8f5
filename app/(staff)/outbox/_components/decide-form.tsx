'use client';

import { Button } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { decide } from '../actions';

/** A message that may not have arrived: a person sends it again or leaves it. */
export function DecideForm({ messageId, about }: { messageId: string; about: string }) {
  const { form, error, busy } = useActionForm(decide);
  return (
    <ActionForm {...form} className="mt-3 flex flex-wrap gap-3 no-print">
      <Hidden of={{ messageId }} />
      <Button type="submit" name="decision" value="again" disabled={busy} aria-describedby={about}>
        Send again
      </Button>
      <Button type="submit" name="decision" value="leave" disabled={busy} aria-describedby={about}>
        Do not send it again
      </Button>
      <FormErrors errors={error('')} />
    </ActionForm>
  );
}
