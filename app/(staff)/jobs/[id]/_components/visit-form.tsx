'use client';

import { Button } from '@/app/_ui/buttons/button';
import { FormErrors, Select } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { putOnVisit } from '../../actions';

/** Puts the job on a visit that is booked there anyway. */
export function VisitForm({ jobId, visits }: { jobId: string; visits: { value: string; label: string }[] }) {
  const { form, error, on, busy } = useActionForm(putOnVisit);
  if (visits.length === 0) return null;
  return (
    <Sheet title="Somebody goes there anyway">
      <ActionForm {...form} className="flex flex-col gap-3">
        <FormErrors errors={error('')} />
        <Hidden of={{ jobId }} />
        <Select label="Visit" {...on('visitId')} options={visits} />
        <Button type="submit" disabled={busy} className="self-start">
          Put it on this visit
        </Button>
      </ActionForm>
    </Sheet>
  );
}
