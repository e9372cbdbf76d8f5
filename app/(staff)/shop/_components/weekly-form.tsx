'use client';

import { Check } from '@/app/_ui/fields/check';
import { FormErrors } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { saveWeekly } from '../actions';

export function WeeklyForm({ on }: { on: boolean }) {
  const { form, error, busy, saved } = useActionForm(saveWeekly);
  return (
    <Sheet title="Letter on Mondays">
      <ActionForm {...form} className="flex max-w-xl flex-col gap-4">
        <FormErrors errors={error('')} />
        <Check
          name="weeklyLetter"
          label="Send each owner the week on one screen"
          hint="Mondays from seven: what was done, what is late, what waits for a decision."
          defaultChecked={on}
        />
        <SaveRow busy={busy} label="Save the letter" look="plain" saved={saved} />
      </ActionForm>
    </Sheet>
  );
}
