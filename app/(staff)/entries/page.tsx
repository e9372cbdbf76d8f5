import type { Metadata } from 'next';
import Link from 'next/link';
import { counted } from '@/lib/core/wording/counted';
import { countToLookAt, entriesLookedAt, entriesToLookAt } from '@/lib/features/entries/reads/questioned';
import { unitsOf } from '@/lib/features/people/reads/people';
import { definePage } from '@/lib/server/doors/define-page';
import { Empty, PageHead, Sheet } from '@/app/_ui/page/sheet';
import { EntryQuestion } from './_components/entry-question';

export const metadata: Metadata = { title: 'Entries to look at' };

const MOST = 50;
const VIEWS = [
  { show: 'open', label: 'To look at' },
  { show: 'settled', label: 'Looked at' },
] as const;

export default definePage('settle:entry', async ({ db, actor, query }) => {
  const settled = query.show === 'settled';
  const [waiting, entries, units] = await Promise.all([
    countToLookAt(db),
    settled ? entriesLookedAt(db, MOST) : entriesToLookAt(db, MOST),
    unitsOf(db, actor.userId),
  ]);
  return (
    <>
      <PageHead
        title="Entries to look at"
        lead="What technicians wrote on their tablets and the office could not file, or filed with a question. Nothing here is lost: say that you have looked at it and what was done."
      />
      <nav aria-label="Which entries" className="mb-5 flex flex-wrap gap-1">
        {VIEWS.map(({ show, label }) => (
          <Link
            key={show}
            href={`/entries?show=${show}`}
            aria-current={settled === (show === 'settled') ? 'page' : undefined}
            className={`inline-flex min-h-11 items-center rounded-md border px-3 font-bold no-underline ${settled === (show === 'settled') ? 'border-cold bg-cold-wash text-cold' : 'border-line bg-sheet text-ink hover:border-edge'}`}
          >
            {label}
            {show === 'open' ? ` (${waiting})` : ''}
          </Link>
        ))}
      </nav>
      {entries.length === 0 ? (
        <Empty>
          {settled
            ? 'Nothing has been looked at yet. Each entry that someone has looked at is kept here, with who and when.'
            : 'Nothing waits. An entry that could not be filed, or met with something changed in the office, appears here as soon as the tablet sends it.'}
        </Empty>
      ) : (
        <Sheet title={<span aria-live="polite">{settled ? `The last ${entries.length}` : shownOf(entries.length, waiting)}</span>}>
          <ul className="flex flex-col">
            {entries.map((e) => (
              <EntryQuestion key={e.id} entry={e} units={units} may />
            ))}
          </ul>
        </Sheet>
      )}
    </>
  );
});

const shownOf = (shown: number, waiting: number) =>
  waiting > shown
    ? `The newest ${shown} of ${counted(waiting, 'entry', 'entries')}; older ones follow as these are looked at`
    : `${counted(shown, 'entry', 'entries')}, the last to come in first`;
