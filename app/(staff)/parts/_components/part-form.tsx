'use client';

import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { Saved } from '@/app/_ui/feedback/saved';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { savePart } from '../actions';

/** A part by its number: a new one, or one whose name, price or count changed. */
export function PartForm() {
  const { form, error, on, busy, saved } = useActionForm(savePart);
  return (
    <Sheet title="Put on the list, or change">
      <ActionForm {...form} className="flex flex-col gap-3">
        <FormErrors errors={error('')} />
        <Field
          label="Number"
          {...on('number')}
          hint="A number that is there already is changed; what is left empty stays as it is."
          autoComplete="off"
          required
        />
        <Field label="Name" {...on('name')} autoComplete="off" required />
        <Field label="Price" {...on('price')} inputMode="decimal" required />
        <div className="grid grid-cols-2 gap-3">
          <Field label="In a van" {...on('inVan')} inputMode="numeric" />
          <Field label="In the shop" {...on('inShop')} inputMode="numeric" />
        </div>
        <Field label="Warranty" unit="months" {...on('warrantyMonths')} inputMode="numeric" />
        <div className="flex items-center gap-3">
          <Button type="submit" look="primary" disabled={busy}>
            Save
          </Button>
          <Saved when={saved} />
        </div>
      </ActionForm>
    </Sheet>
  );
}
