'use client';

import { useState, type FormEvent } from 'react';
import { MOST_FLEET_BYTES } from '@/lib/schemas/fleet-csv';
import { Button } from '@/app/_ui/buttons/button';
import { FormErrors, TextArea } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { checkFleet } from '../actions';

/** Choose a file or paste its lines; both are only looked at. */
export function FileForm({ pasted }: { pasted?: string }) {
  const { form, error, busy } = useActionForm(checkFleet);
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
      <div className="flex flex-col gap-1">
        <label htmlFor="fleet-file" className="font-bold">
          File
        </label>
        <input
          id="fleet-file"
          type="file"
          name="file"
          accept=".xlsx,.csv,.tsv,.txt,text/csv"
          aria-invalid={wrong ? true : undefined}
          aria-describedby="fleet-file-hint fleet-file-error"
          className="rounded-md border border-edge bg-sheet p-2 file:mr-3 file:rounded file:border file:border-edge file:bg-paper file:px-3 file:py-1 file:font-bold aria-[invalid=true]:border-2 aria-[invalid=true]:border-alarm"
        />
        <p id="fleet-file-hint" className="text-sm text-soft">
          An Excel workbook (.xlsx) or CSV, with any columns in any order. Up to 20,000 rows.
        </p>
        <p id="fleet-file-error" role="alert" className="text-sm font-bold text-alarm empty:hidden">
          {wrong?.join(' ')}
        </p>
      </div>
      <TextArea
        label={pasted === undefined ? 'Or paste the lines' : 'The lines as you gave them: mend them here'}
        name="pasted"
        rows={pasted === undefined ? 5 : 12}
        defaultValue={pasted}
        error={error('pasted')}
        spellCheck={false}
        className="w-full overflow-x-auto whitespace-pre rounded-md border border-edge bg-sheet p-3 font-mono text-sm"
      />
      <Button look="primary" type="submit" disabled={busy} className="self-start">
        {busy ? 'Reading …' : 'Check it'}
      </Button>
    </ActionForm>
  );
}
