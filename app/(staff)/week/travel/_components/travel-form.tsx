'use client';

import { useState, useTransition } from 'react';
import { counted } from '@/lib/core/wording/counted';
import { Button } from '@/app/_ui/buttons/button';
import { FileField } from '@/app/_ui/fields/file-field';
import { FormErrors, TextArea } from '@/app/_ui/fields/field';
import { Saved } from '@/app/_ui/feedback/saved';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { ProblemTable } from '../../../customers/import/_components/problem-table';
import { check, forget, replace } from '../actions';

type Done = Awaited<ReturnType<typeof replace>>;

/** The lines stay in sight, to be mended; a file is put where lines are pasted. */
export function TravelForm({ stored }: { stored: number }) {
  const { form, error, on, busy, data } = useActionForm(check, { asks: true });
  const [csv, setCsv] = useState('');
  const [done, setDone] = useState<Done | null>(null);
  const [writing, start] = useTransition();
  const report = data && data.csv.replace(/\r\n/g, '\n') === csv.replace(/\r\n/g, '\n') ? data.report : null;
  const errors = report?.problems.filter((p) => p.severity === 'error').length ?? 0;
  const change = (text: string) => {
    setCsv(text);
    setDone(null);
  };
  const write = (work: () => Promise<Done>) => start(async () => setDone(await work()));

  return (
    <div className="flex min-w-0 flex-col gap-6">
      <Sheet title="The file">
        <ActionForm {...form} className="flex flex-col gap-4">
          <FormErrors errors={error('')} />
          <FileField id="travel-file" accept=".csv,.tsv,.txt,text/csv" onChange={(e) => void e.target.files?.[0]?.text().then(change)} />
          <TextArea
            label="Or paste the lines"
            {...on('csv')}
            rows={8}
            value={csv}
            onChange={(e) => change(e.target.value)}
            spellCheck={false}
            placeholder={'from,to,minutes'}
            className="w-full overflow-x-auto whitespace-pre rounded-md border border-edge bg-sheet p-3 font-mono text-sm"
          />
          <div className="flex flex-wrap gap-3">
            <Button look={report && errors === 0 ? 'plain' : 'primary'} type="submit" disabled={busy}>
              {busy ? 'Reading …' : 'Check it'}
            </Button>
            {stored > 0 ? (
              <Button look="quiet" disabled={writing} onClick={() => write(() => forget({}))}>
                Forget imported minutes
              </Button>
            ) : null}
          </div>
        </ActionForm>
        <Outcome of={done} />
      </Sheet>
      {report && !done?.ok ? (
        <Checked report={report} errors={errors} writing={writing} onStore={() => write(() => replace({ csv }))} />
      ) : null}
    </div>
  );
}

function Outcome({ of }: { of: Done | null }) {
  return (
    <div className="mt-3">
      <Saved when={!!of?.ok}>{of?.ok ? doneWords(of.data) : ''}</Saved>
      <FormErrors errors={of && !of.ok ? [of.message] : null} />
    </div>
  );
}

const doneWords = ({ stored, replaced }: { stored: number; replaced: number }): string =>
  stored > 0
    ? `${counted(stored, 'pair')} stored${replaced > 0 ? ` in the place of ${replaced}` : ''}`
    : `${counted(replaced, 'pair')} forgotten; coordinates answer for all`;

type Report = NonNullable<NonNullable<Awaited<ReturnType<typeof check>>>['data']>['report'];

function readyWords({ pairs, kitchens, possible, replaces }: Report): string {
  const others = pairs < possible ? `; coordinates answer for the other ${possible - pairs}` : '';
  return `${counted(pairs, 'pair')} between ${counted(kitchens, 'kitchen')}${others}. ${replaces > 0 ? `In the place of ${replaces} imported before.` : ''}`;
}

/** What the check found: either all of it can be stored, or nothing. */
function Checked({ report, errors, writing, onStore }: { report: Report; errors: number; writing: boolean; onStore: () => void }) {
  return (
    <Sheet title={errors > 0 ? 'Nothing can be stored yet' : 'Ready to store'}>
      <p role="status">
        {errors > 0
          ? `${counted(errors, 'thing is', 'things are')} wrong. Mend the lines above and check again; nothing is stored until all of it can.`
          : readyWords(report)}
      </p>
      {errors === 0 ? (
        <Button look="primary" className="mt-3" disabled={writing} onClick={onStore}>
          {writing ? 'Storing …' : 'Store these minutes'}
        </Button>
      ) : null}
      {report.problems.length > 0 ? (
        <div className="mt-4">
          <ProblemTable problems={report.problems} />
        </div>
      ) : null}
    </Sheet>
  );
}
