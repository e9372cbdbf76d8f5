import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { counted } from '@/lib/core/wording/counted';
import { allColumns } from '@/lib/core/fleet-csv';
import { fleetTaskKinds } from '@/lib/features/fleet-csv/reads/fleet';
import { importRun, type ImportSummary } from '@/lib/features/fleet-csv/reads/imports';
import { isId } from '@/lib/core/ids/is-id';
import { definePage } from '@/lib/server/define-page';
import { ButtonLink } from '../../../../_ui/button';
import { PageHead, Sheet } from '../../../../_ui/sheet';
import { State } from '../../../../_ui/state';
import { Trail } from '../../../../_ui/trail';
import { ColumnGuide } from '../_components/column-guide';
import { FileForm } from '../_components/file-form';
import { ProblemTable } from '../_components/problem-table';
import { Progress } from '../_components/progress';
import { RunForm } from '../_components/run-form';

export const metadata: Metadata = { title: 'Import' };

/** A file small enough to mend in the browser. */
const MENDABLE = 200_000;

function Wins({ s }: { s: ImportSummary }) {
  return (
    <p>
      {counted(s.units, 'unit')} with {counted(s.tasks, 'task')} in {counted(s.kitchens, 'kitchen')} ({counted(s.newKitchens, 'new one')});{' '}
      {counted(s.customers, 'new customer')}.
      {s.flammable > 0
        ? ` ${counted(s.flammable, 'unit')} with a flammable refrigerant: only people on file for it can be booked on them.`
        : ''}
    </p>
  );
}

export default definePage('import:equipment', async ({ db, params }) => {
  const run = isId(params.id) ? await importRun(db, params.id) : null;
  if (!run) notFound();
  const columns = allColumns(await fleetTaskKinds(db)).map(({ header, about, required, scope }) => ({ header, about, required, scope }));
  const { problems, summary } = run.report;
  const bad = summary.errors > 0;
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
            <Progress runId={run.id} rows={run.rows} doneRows={run.doneRows} />
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
        {run.status === 'checked' && !bad ? (
          <Sheet title="All of it fits">
            <div className="flex flex-col gap-3">
              <Wins s={summary} />
              <RunForm runId={run.id} units={summary.units} />
            </div>
          </Sheet>
        ) : null}
        {problems.length > 0 ? (
          <Sheet
            title={bad ? `${counted(summary.errors, 'thing')} to mend` : 'Good to know'}
            aside={bad ? <span className="text-soft">Nothing has been written.</span> : null}
          >
            <ProblemTable problems={problems} runId={run.id} />
          </Sheet>
        ) : null}
        {(bad || run.status === 'failed') && run.csv ? (
          <Sheet title="Try again">
            <FileForm pasted={run.csv.length <= MENDABLE ? run.csv : undefined} />
            <div className="mt-4">
              <ColumnGuide columns={columns} />
            </div>
          </Sheet>
        ) : null}
      </div>
    </>
  );
});
