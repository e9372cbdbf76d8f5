'use client';

import { Button } from '../../../_ui/button';
import { Check } from '../../../_ui/check';
import { FormErrors } from '../../../_ui/field';
import { Saved } from '../../../_ui/saved';
import { Sheet } from '../../../_ui/sheet';
import { ActionForm } from '../../../_ui/action-form';
import { useActionForm } from '../../../_ui/use-action-form';
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
        <div className="flex items-center gap-3">
          <Button type="submit" disabled={busy}>
            Save the letter
          </Button>
          <Saved when={saved} />
        </div>
      </ActionForm>
    </Sheet>
  );
}
