'use client';

import { Button } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { Hidden } from '@/app/_ui/forms/parts';
import { usePlainForm } from '@/app/_ui/forms/use-plain-form';
import { confirmVisit } from '../actions';

/** One button that says yes to a visit. */
export function ConfirmForm({ token, visitId, suits, about }: { token: string; visitId: string; suits: string; about: string }) {
  const { form, error, busy } = usePlainForm(confirmVisit);
  return (
    <form {...form}>
      <FormErrors errors={error('')} />
      <Hidden of={{ token, visitId }} />
      <Button type="submit" name="answer" value="confirmed" look="primary" size="touch" disabled={busy}>
        {suits}
        <span className="sr-only">: {about}</span>
      </Button>
    </form>
  );
}
