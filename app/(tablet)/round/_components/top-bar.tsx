import { Mark } from '@/app/_ui/page/mark';
import { State } from '@/app/_ui/states/state';
import { dayAt, timeAt } from '@/lib/core/calendar/at-offset';
import { counted } from '@/lib/core/wording/counted';
import { countUnread } from '../_lib/answers';
import { useSnapshot } from '../_lib/tablet-context';
import { to, usePlace, type Place } from '../_lib/use-place';
import { TroubleBar } from './trouble-bar';

function back(place: Place): { href: string; words: string } | null {
  if (place.at === 'round') return null;
  if (place.at === 'sealed') return { href: to.unit(place.visitId, place.unitId, 'look'), words: 'Unit' };
  if (place.at === 'unit' || place.at === 'close' || place.at === 'add-unit') return { href: to.visit(place.visitId), words: 'Visit' };
  return { href: to.round, words: 'Round' };
}

/** Always in sight: the way back, how fresh the round is, whether anything is still unsent or answered, and what is wrong. */
export function TopBar() {
  const place = usePlace();
  const refreshedAt = useSnapshot((s) => s.refreshedAt);
  const way = back(place);
  return (
    <header className="sticky top-0 z-20 border-b border-line bg-sheet pt-[env(safe-area-inset-top)]">
      <div className="mx-auto flex max-w-[64rem] items-center justify-between gap-3 px-2 py-1">
        {way ? (
          <a href={way.href} className="inline-flex min-h-12 min-w-12 items-center gap-1 px-2 font-bold text-cold no-underline">
            <span aria-hidden="true">‹</span> {way.words}
          </a>
        ) : (
          <span className="inline-flex min-h-12 items-center gap-2 px-2 text-lg font-bold text-cold">
            <Mark /> <span className="max-[380px]:sr-only">Rimebook</span>
          </span>
        )}
        <a
          href={to.entries}
          className="inline-flex min-h-12 flex-col items-end justify-center px-2 text-right text-sm leading-tight no-underline"
        >
          <SendState />
          <span className="text-soft">{refreshedAt ? `Last refreshed ${moment(refreshedAt)}` : 'Not refreshed yet'}</span>
        </a>
      </div>
      <TroubleBar />
    </header>
  );
}

function SendState() {
  const s = useSnapshot((all) => all);
  const count = s.waiting + s.photos.length;
  if (s.phase !== 'ready') return null;
  if (s.line === 'signed_out')
    return (
      <State shape="ask" tone="alarm">
        Sign in again{count ? `, ${count} kept` : ''}
      </State>
    );
  const answers = countUnread(s.operations);
  if (answers > 0)
    return (
      <State shape="ask" tone="alarm">
        {counted(answers, 'answer')} from the office{count ? `, ${count} kept` : ''}
      </State>
    );
  if (count > 0)
    return s.line === 'sending' ? (
      <State shape="now" tone="cold">
        Sending {count}
      </State>
    ) : (
      <State shape="held">{count} on this tablet</State>
    );
  return (
    <State shape="done" tone="soft">
      All in the office
    </State>
  );
}

/** Today as a time, else with the day; in the tablet's own zone, like the clock on its wall. */
export function moment(iso: string): string {
  const d = new Date(iso);
  const [at, offset] = [d.getTime(), -d.getTimezoneOffset()];
  return d.toDateString() === new Date().toDateString() ? timeAt(at, offset) : `${dayAt(at, offset)} ${timeAt(at, offset)}`;
}
