import type { Metadata } from 'next';
import Link from 'next/link';
import { allColumns } from '@/lib/core/fleet-csv';
import { fleetTaskKinds } from '@/lib/features/fleet-csv/reads/fleet';
import { recentImports } from '@/lib/features/fleet-csv/reads/imports';
import { shopTimeZone } from '@/lib/features/shop/reads/shop';
import { definePage } from '@/lib/server/doors/define-page';
import { FileLink } from '@/app/_ui/buttons/button';
import { PageHead, Sheet } from '@/app/_ui/page/sheet';
import { Trail } from '@/app/_ui/page/trail';
import { momentIn } from '@/lib/core/calendar/when';
import { ColumnGuide } from './_components/column-guide';
import { FileForm } from './_components/file-form';
import { statusWords } from './_components/status';

export const metadata: Metadata = { title: 'Bring in a sheet' };

export default definePage('import:equipment', async ({ db }) => {
  const [kinds, recent, zone] = await Promise.all([fleetTaskKinds(db), recentImports(db), shopTimeZone(db)]);
  const columns = allColumns(kinds).map(({ header, about, required, scope }) => ({ header, about, required, scope }));
  return (
    <>
      <Trail items={[{ href: '/customers', label: 'Customers' }]} />
      <PageHead
        title="Bring in a sheet"
        lead="One row for each unit. The file is first only looked at: you see everything that is wrong with it, and nothing goes on file until all of it can."
        actions={<FileLink href="/customers/template">Template with examples</FileLink>}
      />
      <div className="grid grid-cols-1 items-start gap-6 lg:grid-cols-[minmax(0,3fr)_minmax(0,2fr)]">
        <Sheet title="The file">
          <FileForm />
        </Sheet>
        <Sheet title="What happens">
          <ol className="list-decimal space-y-2 pl-5">
            <li>Customers and kitchens not on file yet are made; units are added to those that are.</li>
            <li>Each unit gets its tasks, at intervals usual for its place (common practice) unless the file says otherwise.</li>
            <li>Where nothing is known of the last cleaning, first dates are spread over one interval, a kitchen together.</li>
            <li>A unit that is on file already, by name in its kitchen or by tag, stops the import and is named.</li>
          </ol>
          {recent.length > 0 ? (
            <>
              <h3 className="mt-5 mb-1">Earlier</h3>
              <ul>
                {recent.map((r) => (
                  <li key={r.id} className="flex flex-wrap justify-between gap-x-4 border-t border-line py-1">
                    <Link href={`/customers/import/${r.id}`}>{r.fileName}</Link>
                    <span className="text-soft">
                      {statusWords(r.status, r.rows)}, {momentIn(r.createdAt.getTime(), zone)}
                    </span>
                  </li>
                ))}
              </ul>
            </>
          ) : null}
        </Sheet>
        <Sheet className="lg:col-span-2">
          <ColumnGuide columns={columns} />
        </Sheet>
      </div>
    </>
  );
});
