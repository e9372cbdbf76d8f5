import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { counted } from '@/lib/core/wording/counted';
import { allColumns, type UnfitRows } from '@/lib/core/fleet-csv';
import { fleetTaskKinds } from '@/lib/features/fleet-csv/reads/fleet';
import { importRun, type ImportSummary } from '@/lib/features/fleet-csv/reads/imports';
import { isId } from '@/lib/core/ids/is-id';
import { definePage } from '@/lib/server/define-page';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Progress } from '@/app/_ui/feedback/progress';
import { State } from '@/app/_ui/states/state';
import { Trail } from '@/app/_ui/page/trail';
import { Choose } from '../_components/choose';
import { ColumnGuide } from '../_components/column-guide';
import { FileForm } from '../_components/file-form';
import { ProblemTable } from '../_components/problem-table';
import { RunForm } from '../_components/run-form';
import { SheetRoom } from '../_components/sheet-room';
import { TakeBack } from '../_components/take-back';

export const metadata: Metadata = { title: 'Import' };

function Wins({ s }: { s: ImportSummary }) {
  if (s.units === 0)
    return <p>{s.updates > 0 ? `${counted(s.updates, 'unit')} on file changed.` : 'All of it is on file already; nothing changes.'}</p>;
  return (
    <p>
      {counted(s.units, 'unit')} with {counted(s.tasks, 'task')} in {counted(s.kitchens, 'kitchen')} ({counted(s.newKitchens, 'new one')});{' '}
      {counted(s.customers, 'new customer')}.{s.updates > 0 ? ` ${counted(s.updates, 'unit')} on file changed.` : ''}
      {s.flammable > 0
        ? ` ${counted(s.flammable, 'unit')} with a flammable refrigerant: only people on file for it can be booked on them.`
        : ''}
    </p>
  );
}

function Ready({ runId, s, title }: { runId: string; s: ImportSummary; title: string }) {
  return (
    <Sheet title={title}>
      <div className="flex flex-col gap-3">
        <Wins s={s} />
        {s.units + s.updates > 0 ? <RunForm runId={runId} units={s.units} updates={s.updates} /> : null}
      </div>
    </Sheet>
  );
}

/** Rows that cannot be filed, by their trouble, and one decision for all of them. */
function Unfit({ runId, unfit }: { runId: string; unfit: UnfitRows }) {
  return (
    <Sheet title={`${counted(unfit.rows, 'row')} that cannot go on file`}>
      <ul className="mb-3">
        {unfit.causes.map(({ column, message, rows, first }) => (
          <li key={message} className="border-b border-line py-1.5">
            <span className="font-bold">{column || 'The row'}</span>: {message}{' '}
            <span className="text-soft">
              Row {first.join(', ')}
              {rows > first.length ? ` and ${rows - first.length} more` : ''}
            </span>
          </li>
        ))}
      </ul>
      <div className="max-w-sm">
        <Choose
          runId={runId}
          of="answer"
          about="unfit"
          value=""
          options={[{ value: 'leave out', label: 'Leave these rows out' }]}
          label="What to do with them"
        />
      </div>
    </Sheet>
  );
}

export default definePage('import:equipment', async ({ db, params }) => {
  const run = isId(params.id) ? await importRun(db, params.id) : null;
  if (!run) notFound();
  const columns = allColumns(await fleetTaskKinds(db)).map(({ header, about, required, scope }) => ({ header, about, required, scope }));
  const { problems, summary } = run.report;
  const bad = summary.errors > 0;
  const reading = run.status === 'checked' || run.status === 'failed' ? run.report.sheet : undefined;
  return (
    <>
      <Trail
        items={[
          { href: '/customers', label: 'Customers' },
          { href: '/customers/import', label: 'Import' },
        ]}
      />
      <PageHead title={run.fileName} lead={counted(run.rows, 'row')} />
      <div className="flex flex-col gap-6">
        {run.status === 'running' ? (
          <Sheet>
            <Progress
              address={`/customers/import/${run.id}/progress`}
              title="Putting units on file"
              rows={run.rows}
              doneRows={run.doneRows}
            />
          </Sheet>
        ) : null}
        {run.status === 'done' ? (
          <Sheet>
            <State shape="done" tone="cold">
              Done
            </State>
            <Wins s={summary} />
            <p className="mt-3 flex gap-2">
              <ButtonLink href="/customers" look="primary">
                See the kitchens
              </ButtonLink>
              <ButtonLink href="/due">What is due</ButtonLink>
            </p>
            {run.made ? (
              <div className="mt-4 border-t border-line pt-4">
                <p className="mb-2 text-soft">While nothing is booked on it or filled in, all of it can be taken back in one go.</p>
                <TakeBack runId={run.id} />
              </div>
            ) : null}
          </Sheet>
        ) : null}
        {run.status === 'undone' ? (
          <Sheet>
            <State shape="off" tone="soft">
              Taken back
            </State>
            <p>What this import had put on file is off it again.</p>
          </Sheet>
        ) : null}
        {run.status === 'failed' ? (
          <Sheet>
            <State shape="off" tone="alarm">
              Nothing was written
            </State>
            <p>
              {bad
                ? 'Something on file changed since the check; see below.'
                : 'The import was cut off before it ended. The fleet is as it was before. Check the file again and run it once more.'}
            </p>
          </Sheet>
        ) : null}
        {run.status === 'checked' && !bad && !reading ? <Ready runId={run.id} s={summary} title="All of it fits" /> : null}
        {run.status === 'checked' && reading ? (
          <SheetRoom
            runId={run.id}
            reading={reading}
            known={summary.known}
            answer={run.choices.answers.known ?? 'fill'}
            ready={
              summary.open > 0 ? null : bad ? (
                <Unfit runId={run.id} unfit={run.report.unfit ?? { rows: summary.errors, causes: [] }} />
              ) : (
                <Ready runId={run.id} s={summary} title="Ready" />
              )
            }
          />
        ) : null}
        {problems.length > 0 && !reading ? (
          <Sheet
            title={bad ? `${counted(summary.errors, 'thing')} to mend` : 'Good to know'}
            aside={bad ? <span className="text-soft">Nothing has been written.</span> : null}
          >
            <ProblemTable problems={problems} all={summary.errors + summary.notes} runId={run.id} />
          </Sheet>
        ) : null}
        {(bad || run.status === 'failed') && run.size > 0 ? (
          <Sheet title="Try again">
            <FileForm pasted={run.csv || undefined} />
            <div className="mt-4">
              <ColumnGuide columns={columns} />
            </div>
          </Sheet>
        ) : null}
      </div>
    </>
  );
});
