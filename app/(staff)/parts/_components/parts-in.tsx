'use client';

import { useState } from 'react';
import { PART_COLUMNS, VAN_COLUMN } from '@/lib/core/jobs/part-csv';
import { counted } from '@/lib/core/wording/counted';
import { Button } from '@/app/_ui/buttons/button';
import { FormErrors, TextArea } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { takeInParts } from '../actions';

/** A file of parts, taken in whole or not at all; the lines stay in sight to be mended. */
export function PartsIn({ vans }: { vans: readonly string[] }) {
  const { form, error, on, busy, data } = useActionForm(takeInParts);
  const [csv, setCsv] = useState('');
  return (
    <Sheet title="Bring in a file">
      <ActionForm {...form} className="flex flex-col gap-3">
        <FormErrors errors={error('')} />
        <label htmlFor="parts-file" className="font-bold">
          File
        </label>
        <input
          id="parts-file"
          type="file"
          accept=".csv,.tsv,.txt,text/csv"
          onChange={(e) => void e.target.files?.[0]?.text().then(setCsv)}
          className="w-full rounded-md border border-edge bg-sheet p-2"
        />
        <TextArea
          label="Or paste the lines"
          {...on('csv')}
          rows={5}
          value={csv}
          onChange={(e) => setCsv(e.target.value)}
          hint={`The first line names the columns: ${[...PART_COLUMNS, ...vans.slice(0, 1).map((v) => VAN_COLUMN + v)].join(', ')}.`}
          spellCheck={false}
        />
        <Button type="submit" disabled={busy} className="self-start">
          Take in
        </Button>
        <div role="status">
          {data && data.problems.length === 0 ? `${counted(data.added, 'part')} added, ${data.changed} changed.` : null}
          {data && data.problems.length > 0 ? (
            <>
              <p className="font-bold text-alarm">Nothing was taken in.</p>
              <ul>
                {data.problems.map((p) => (
                  <li key={`${p.line} ${p.column} ${p.message}`}>
                    Line {p.line}
                    {p.column ? `, ${p.column}` : ''}: {p.message}
                  </li>
                ))}
              </ul>
            </>
          ) : null}
        </div>
      </ActionForm>
    </Sheet>
  );
}
