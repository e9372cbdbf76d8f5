'use client';

import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors, Select } from '@/app/_ui/fields/field';
import { Saved } from '@/app/_ui/feedback/saved';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { movePart } from '../actions';

type Props = { parts: readonly { number: string; name: string }[]; vans: readonly { id: string; name: string }[] };

/** Pieces into a van, out of it, onto the list or off it. */
export function MoveForm({ parts, vans }: Props) {
  const { form, error, on, busy, saved } = useActionForm(movePart);
  const places = [
    { value: 'shop', label: 'The shop' },
    ...vans.map((v) => ({ value: v.id, label: `Van of ${v.name}` })),
    { value: 'van', label: 'A van, nobody said whose' },
  ];
  return (
    <Sheet title="Load, unload, count in">
      <ActionForm {...form} className="flex flex-col gap-3">
        <FormErrors errors={error('')} />
        <Select
          id="move-number"
          label="Part"
          {...on('number')}
          blank="Choose"
          options={parts.map((p) => ({ value: p.number, label: `${p.number} ${p.name}` }))}
        />
        <Field id="move-pieces" label="Pieces" {...on('pieces')} inputMode="numeric" defaultValue="1" />
        <Select label="From" {...on('from')} blank="Bought, or found" options={places} />
        <Select label="To" {...on('to')} blank="Gone" options={places} />
        <div className="flex items-center gap-3">
          <Button type="submit" disabled={busy}>
            Move
          </Button>
          <Saved when={saved}>Moved.</Saved>
        </div>
      </ActionForm>
    </Sheet>
  );
}
