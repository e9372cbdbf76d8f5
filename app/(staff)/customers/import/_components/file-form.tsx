'use client';

import { useState, type FormEvent } from 'react';
import { MOST_FLEET_BYTES } from '@/lib/schemas/equipment/fleet-csv';
import { Button } from '@/app/_ui/buttons/button';
import { FileField } from '@/app/_ui/fields/file-field';
import { FormErrors, TextArea } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { checkFleet } from '../actions';

/** Choose a file or paste its lines; both are only looked at. */
export function FileForm({ pasted }: { pasted?: string }) {
  const { form, error, on, busy } = useActionForm(checkFleet);
  const [tooLarge, setTooLarge] = useState(false);
  const wrong = tooLarge ? ['The file is larger than 10 MB. Split it.'] : error('file');

  // Far too large a file never reaches the form's own check: the server hangs up on it.
  function onSubmit(event: FormEvent<HTMLFormElement>) {
    const file = new FormData(event.currentTarget).get('file');
    const big = file instanceof File && file.size > MOST_FLEET_BYTES;
    setTooLarge(big);
    if (big) event.preventDefault();
    else form.onSubmit(event);
  }

  return (
    <ActionForm {...form} onSubmit={onSubmit} className="flex flex-col gap-4">
      <FormErrors errors={error('')} />
      <FileField
        id="fleet-file"
        name="file"
        accept=".xlsx,.csv,.tsv,.txt,text/csv"
        hint="An Excel workbook (.xlsx) or CSV, with any columns in any order. Up to 20,000 rows."
        error={wrong}
      />
      <TextArea
        label={pasted === undefined ? 'Or paste the lines' : 'The lines as you gave them: mend them here'}
        {...on('pasted')}
        rows={pasted === undefined ? 5 : 12}
        defaultValue={pasted}
        spellCheck={false}
        className="w-full overflow-x-auto whitespace-pre rounded-md border border-edge bg-sheet p-3 font-mono text-sm"
      />
      <Button look="primary" type="submit" disabled={busy} className="self-start">
        {busy ? 'Reading …' : 'Check it'}
      </Button>
    </ActionForm>
  );
}
