'use client';

import { Button } from '../../../../_ui/button';
import { FormErrors, TextArea } from '../../../../_ui/field';
import { useActionForm } from '../../../../_ui/use-action-form';
import { checkFleet } from '../actions';

/** Choose a file or paste its lines; both are only looked at. */
export function FileForm({ pasted }: { pasted?: string }) {
  const { form, error, busy } = useActionForm(checkFleet);
  const wrong = error('file');
  return (
    <form {...form} className="flex flex-col gap-4">
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
    </form>
  );
}
