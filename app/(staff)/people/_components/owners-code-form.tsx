'use client';

import { Check } from '@/app/_ui/fields/check';
import { FormErrors } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { askOwners } from '../actions';

export function OwnersCodeForm({ on }: { on: boolean }) {
  const { form, error, busy, saved } = useActionForm(askOwners);
  return (
    <Sheet title="Second step for owners" className="mt-8 max-w-2xl">
      <ActionForm {...form} className="flex flex-col gap-4">
        <FormErrors errors={error('')} />
        <Check
          name="ownersGiveCode"
          label="Ask owners for a second step"
          hint="Before people, and before everything leaves as one file, an owner must sign in with a code from their telephone too."
          defaultChecked={on}
        />
        <SaveRow busy={busy} label="Save" look="plain" saved={saved} />
      </ActionForm>
    </Sheet>
  );
}
