'use client';

import { Button } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { reviseAgain } from '../actions';

/** The visit is closed, but its estimates and rules could not be brought up to date then. */
export function ReviseAgain({ visitId, allowed }: { visitId: string; allowed: boolean }) {
  const { form, error, busy, saved } = useActionForm(reviseAgain);
  if (saved) return <p role="status">Estimates and rules are up to date.</p>;
  return (
    <Sheet title="Rules not revised yet" className="border-2 border-alarm">
      <p className="mb-3">
        The visit is closed and every entry is on file, but its estimates and rules could not be brought up to date at the time.
      </p>
      {allowed ? (
        <ActionForm {...form}>
          <Hidden of={{ visitId }} />
          <FormErrors errors={error('')} />
          <Button look="primary" type="submit" disabled={busy}>
            {busy ? 'Working …' : 'Bring them up to date'}
          </Button>
        </ActionForm>
      ) : null}
    </Sheet>
  );
}
