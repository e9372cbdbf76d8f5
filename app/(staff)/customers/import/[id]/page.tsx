import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { counted } from '@/lib/core/wording/counted';
import { allColumns, unfitRows, type UnfitRows } from '@/lib/core/fleet-csv';
import { fleetTaskKinds } from '@/lib/features/fleet-csv/reads/fleet';
import { importRun } from '@/lib/features/fleet-csv/reads/imports';
import { changesOf } from '@/lib/features/audit/reads/audit';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { isId } from '@/lib/core/ids/is-id';
import { definePage } from '@/lib/server/doors/define-page';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { ChangeHistory } from '@/app/(staff)/_components/change-history';
import { ColumnGuide } from '../_components/column-guide';
import { FileForm } from '../_components/file-form';
import { Done, Failed, Running, Undone } from '../_components/outcome';
import { ProblemTable, PROBLEMS_SHOWN } from '../_components/problem-table';
import { Causes, Ready, Unfit } from '../_components/ready';
import { SheetRoom } from '../_components/sheet-room';

export const metadata: Metadata = { title: 'Import' };

export default definePage('import:equipment', async ({ db, params }) => {
  const run = isId(params.id) ? await importRun(db, params.id, PROBLEMS_SHOWN) : null;
  if (!run) notFound();
  const columns = allColumns(await fleetTaskKinds(db)).map(({ header, about, required, scope }) => ({ header, about, required, scope }));
  const again = (run.report.summary.errors > 0 || run.status === 'failed') && run.size > 0;
  return (
    <>
      <Trail
        items={[
          { href: '/customers', label: 'Customers' },
          { href: '/customers/import', label: 'Bring in a sheet' },
        ]}
      />
      <PageHead title={run.fileName} lead={counted(run.rows, 'row')} />
      <div className="flex flex-col gap-6">
        <Outcome run={run} />
        <Problems run={run} />
        {again ? (
          <Sheet title="Try again">
            <FileForm pasted={run.csv || undefined} />
            <div className="mt-4">
              <ColumnGuide columns={columns} />
            </div>
          </Sheet>
        ) : null}
        <ChangeHistory changes={await changesOf(db, 'ImportRun', run.id)} timeZone={await shopTimeZone(db)} />
      </div>
    </>
  );
});

type Run = NonNullable<Awaited<ReturnType<typeof importRun>>>;

/** A sheet of any form, as it was understood; only until it is on file. */
const readingOf = ({ status, report }: Run) => (status === 'checked' || status === 'failed' ? report.sheet : undefined);

/** How far it has come: each state has its own words and its own next step. */
function Outcome({ run }: { run: Run }) {
  const { summary } = run.report;
  switch (run.status) {
    case 'running':
      return <Running run={run} />;
    case 'done':
      return <Done run={run} summary={summary} />;
    case 'undone':
      return <Undone />;
    case 'failed':
      return <Failed bad={summary.errors > 0} />;
    case 'checked':
      return <Checked run={run} />;
  }
}

/** What was handed in fits as it stands, or is a sheet about which something may be left to decide. */
function Checked({ run }: { run: Run }) {
  const { summary, unfit, sheet } = run.report;
  const fits = summary.errors === 0;
  if (!sheet) return fits ? <Ready runId={run.id} s={summary} title="All of it fits" /> : null;
  const ready = fits ? (
    <Ready runId={run.id} s={summary} title="Ready" />
  ) : (
    <Unfit runId={run.id} unfit={unfit ?? { rows: summary.errors, causes: [] }} />
  );
  return (
    <SheetRoom
      runId={run.id}
      reading={sheet}
      rowsOnFile={summary.rowsOnFile}
      answer={run.choices.answers.known ?? 'fill'}
      ready={summary.open > 0 ? null : ready}
    />
  );
}

/** What a sheet says otherwise than what is on file, which stays. */
const Notes = ({ causes }: { causes: UnfitRows['causes'] }) =>
  causes.length === 0 ? null : (
    <Sheet title="Good to know">
      <Causes causes={causes} />
    </Sheet>
  );

/** Row by row, of a file in our own columns. */
function Problems({ run }: { run: Run }) {
  const { problems, summary } = run.report;
  const bad = summary.errors > 0;
  if (readingOf(run)) return bad ? null : <Notes causes={unfitRows(problems, 'note').causes} />;
  if (problems.length === 0) return null;
  return (
    <Sheet
      title={bad ? `${counted(summary.errors, 'thing')} to mend` : 'Good to know'}
      aside={bad ? <span className="text-soft">Nothing has been written.</span> : null}
    >
      <ProblemTable problems={problems} all={summary.errors + summary.notes} file={{ runId: run.id, rows: run.kept }} />
    </Sheet>
  );
}
