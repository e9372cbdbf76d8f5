import Link from 'next/link';
import { counted } from '@/lib/core/wording/counted';
import { addDays, type LocalDate } from '@/lib/core/calendar';
import type { Finding, MendAt } from '@/lib/core/planning';
import { Sheet } from '@/app/_ui/page/sheet';
import { State, type Mark } from '@/app/_ui/states/state';

const AT: Record<MendAt, (id: string, monday: LocalDate) => string> = {
  person: (id) => `/people/${id}#shifts`,
  people: () => '/people',
  'new person': () => '/people/new',
  kitchen: (id) => `/kitchens/${id}/edit#serviceHours`,
  positions: () => '/customers/positions',
  shop: () => '/shop#position',
  costs: () => '/shop#costs',
  import: () => '/customers/import',
  due: () => '/due',
  week: (_, monday) => `/week?day=${monday}`,
  'coming week': () => '/week',
  'week after': (_, monday) => `/week?day=${addDays(monday, 7)}`,
};
/** Kept by the owner: a dispatcher is told whom to ask, not sent to a page that is closed to them. */
const OF_THE_OWNER: readonly MendAt[] = ['person', 'people', 'new person', 'shop', 'costs'];
const MARK: Record<Finding['weight'], Mark> = {
  stops: { shape: 'off', tone: 'alarm', label: 'Nothing can be planned' },
  'keeps out': { shape: 'held', tone: 'ink', label: 'Stays out' },
  assumed: { shape: 'ask', tone: 'soft', label: 'A guess' },
};

/** What keeps work out of the week, a line a cause, each with the page that mends it. */
export function InputFindings({ findings, monday, keepsShop }: { findings: Finding[]; monday: LocalDate; keepsShop: boolean }) {
  if (findings.length === 0) return null;
  const stops = findings.some((f) => f.weight === 'stops');
  const out = findings.some((f) => f.weight === 'keeps out');
  return (
    <Sheet title={stops ? 'Why nothing is planned' : out ? 'What keeps work out of this week' : 'Planned on a guess'}>
      <ul>
        {findings.map((f, i) => {
          const mark = MARK[f.weight];
          return (
            <li
              key={`${f.code} ${i}`}
              className="grid grid-cols-1 items-baseline gap-x-4 border-b border-line py-2 last:border-0 sm:grid-cols-[14rem_minmax(0,1fr)_auto]"
            >
              <State shape={mark.shape} tone={mark.tone}>
                {f.weight === 'keeps out' && f.tasks > 0 ? counted(f.tasks, 'task') : mark.label}
              </State>
              <span>{f.message}</span>
              {!keepsShop && OF_THE_OWNER.includes(f.mend.at) ? (
                <span className="text-soft">Ask the owner: {f.mend.label}</span>
              ) : (
                <Link href={AT[f.mend.at](f.mend.id ?? '', monday)} className="font-bold">
                  {f.mend.label}
                </Link>
              )}
            </li>
          );
        })}
      </ul>
    </Sheet>
  );
}
