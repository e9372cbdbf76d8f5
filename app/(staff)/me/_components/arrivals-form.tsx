'use client';

import { ActionForm } from '@/app/_ui/forms/action-form';
import { Check } from '@/app/_ui/fields/check';
import { FormErrors } from '@/app/_ui/fields/field';
import { SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { saveMyArrivals } from '../actions';

/** Off until the person says otherwise, here or on the tablet. */
export function ArrivalsForm({ shares }: { shares: boolean }) {
  const { form, error, busy, saved } = useActionForm(saveMyArrivals);
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('')} />
      <Check
        name="sharesArrivals"
        defaultChecked={shares}
        label="My tablet may say where it is when I arrive at a kitchen"
        hint="Only at that moment, and without my name: the place, how exact it is, and the time. Several arrivals tell the office where the kitchen is; they are deleted then, after 90 days at the latest."
      />
      <SaveRow busy={busy} label="Save" look="plain" saved={saved} />
    </ActionForm>
  );
}
