'use client';

import { Button } from '@/app/_ui/buttons/button';
import { FormErrors, TextArea } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { checkFleet } from '@/app/(staff)/customers/import/actions';

/** A kitchen's units a line each: looked at first, like any sheet. */
export function UnitLines({ kitchenId }: { kitchenId: string }) {
  const { form, error, on, busy } = useActionForm(checkFleet);
  return (
    <Sheet title="Several at once" className="mb-6">
      <ActionForm {...form} className="flex flex-col gap-3">
        <FormErrors errors={[...(error('') ?? []), ...(error('file') ?? [])]} />
        <Hidden of={{ kitchen: kitchenId }} />
        <TextArea
          label="A line for each unit"
          {...on('pasted')}
          rows={4}
          required
          spellCheck={false}
          placeholder={'Reach-in 2, 134a, by the fryer, June\nWalk-in cooler, 404A, roof, 3/16/26'}
          hint="Its name first; refrigerant, charge, where it stands, last cleaned and anything else in any order. Nothing goes on file before you have seen it."
        />
        <Button type="submit" disabled={busy} className="self-start">
          {busy ? 'Reading …' : 'Look at them'}
        </Button>
      </ActionForm>
    </Sheet>
  );
}
