'use client';

import { dateWords } from '@/lib/core/calendar/when';
import { Field, FormErrors, Select } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { addWarranty } from '../../actions';

type Props = { jobId: string; units: { id: string; name: string; warranties: { id: string; what: string; until: string }[] }[] };

/** Until when somebody else pays for the job's units and their parts. It speaks up before a quote is written. */
export function Warranties({ jobId, units }: Props) {
  const { form, error, on, busy, saved } = useActionForm(addWarranty);
  if (units.length === 0) return null;
  return (
    <details className="rounded-lg border border-line bg-sheet p-4">
      <summary className="min-h-9 cursor-pointer font-bold text-cold">Warranty</summary>
      <ul>
        {units.flatMap((u) =>
          u.warranties.map((w) => (
            <li key={w.id}>
              {u.name}, {w.what}: until {dateWords(w.until)}
            </li>
          )),
        )}
      </ul>
      <ActionForm {...form} className="mt-3 flex flex-col gap-3">
        <FormErrors errors={error('')} />
        <Hidden of={{ jobId }} />
        <Select label="Unit" {...on('unitId')} options={units.map((u) => ({ value: u.id, label: u.name }))} />
        <Field id="warranty-what" label="What is covered" {...on('what')} hint="The unit, or which part of it." />
        <Field id="warranty-until" label="Until" {...on('until')} type="date" />
        <Field id="warranty-note" label="By whom" {...on('note')} />
        <SaveRow busy={busy} label="Add" look="plain" saved={saved} />
      </ActionForm>
    </details>
  );
}
