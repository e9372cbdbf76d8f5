'use client';

import { ActionForm } from '../../../_ui/action-form';
import { Button } from '../../../_ui/button';
import { Check } from '../../../_ui/check';
import { FormErrors } from '../../../_ui/field';
import { Saved } from '../../../_ui/saved';
import { useActionForm } from '../../../_ui/use-action-form';
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
      <div className="flex items-center gap-3">
        <Button type="submit" disabled={busy}>
          Save
        </Button>
        <Saved when={saved} />
      </div>
    </ActionForm>
  );
}
