import Link from 'next/link';
import type { LocalDate } from '@/lib/core/calendar';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { DueState } from '@/app/_ui/states/due-state';
import { Sheet } from '@/app/_ui/page/sheet';
import { momentIn } from '@/lib/core/calendar/when';
import { kitchenInFull } from '@/lib/core/wording/kitchen-name';

type GoBackLine = {
  id: string; what: string; note: string; dueOn: LocalDate; today: LocalDate;
  unitId: string; unit: string; kitchenId: string; kitchen: string; customer: string; timeZone: string; taskIds: string[];
  next: { visitId: string; startsAt: number; technician: string } | null;
}; // prettier-ignore

/** Units that somebody was promised to come back to, with the way to a visit there. `all`: where the rest of them stands. */
export function GoBack({ lines, most, all }: { lines: GoBackLine[]; most: number; all: string | null }) {
  if (lines.length === 0) return null;
  return (
    <Sheet title="To go back to" className="mb-6">
      {lines.length > most && !all ? (
        <p className="text-sm text-soft">The {most} that have waited longest. Narrow the list to see others.</p>
      ) : null}
      <Lines lines={lines.slice(0, most)} />
      {lines.length > most && all ? (
        <p className="mt-2">
          <Link href={all} prefetch={false} className="font-bold">
            All to go back to
          </Link>
        </p>
      ) : null}
    </Sheet>
  );
}

const Lines = ({ lines }: { lines: GoBackLine[] }) => (
  <ul>
    {lines.map((g) => (
      <li key={g.id} className="flex flex-wrap items-center justify-between gap-x-6 gap-y-1 border-b border-line py-1.5">
        <span className="min-w-0 flex-1 basis-80">
          <Link href={`/units/${g.unitId}`} className="font-bold">
            {g.unit}
          </Link>
          , <Link href={`/kitchens/${g.kitchenId}`}>{kitchenInFull(g)}</Link>
          <span className="block">{g.what}</span>
          {g.note ? <span className="block text-sm text-soft">{g.note}</span> : null}
        </span>
        <span>
          <DueState dueOn={g.dueOn} today={g.today} limit={0} />
          {g.next ? (
            <Link href={`/week/${g.next.visitId}`} className="block text-sm">
              next visit {momentIn(g.next.startsAt, g.timeZone)}, {g.next.technician}
            </Link>
          ) : null}
        </span>
        <ButtonLink href={`/week/book?kitchen=${g.kitchenId}&tasks=${g.taskIds.join(',')}`} prefetch={false} className="no-print">
          Book
          <span className="sr-only">
            {' '}
            a visit to {g.unit}, {kitchenInFull(g)}
          </span>
        </ButtonLink>
      </li>
    ))}
  </ul>
);
