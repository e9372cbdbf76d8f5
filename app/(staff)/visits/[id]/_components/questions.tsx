import type { VisitReport } from '@/lib/core/round/visit-report';
import { Sheet } from '@/app/_ui/sheet';
import { State } from '@/app/_ui/state';
import { dayIn, timeIn } from '@/app/_ui/when';

type Operations = VisitReport['operations'];

/** Entries that met with something in the office: both sides are kept, and a person decides. */
export function Questions({ operations, timeZone }: { operations: Operations; timeZone: string }) {
  const open = operations.filter((o) => o.outcome !== 'applied');
  if (open.length === 0) return null;
  return (
    <Sheet title="To look at" className="border-2 border-alarm">
      <ul className="flex flex-col gap-3">
        {open.map((o) => (
          <li key={o.id}>
            <State shape={o.outcome === 'rejected' ? 'late' : 'ask'} tone="alarm">
              {o.what}: {o.outcome === 'rejected' ? 'could not be filed' : 'filed with a question'}
            </State>
            <p>{o.note}</p>
            <p className="text-sm text-soft">
              {o.by}, {dayIn(o.madeAt, timeZone)} {timeIn(o.madeAt, timeZone)}, {o.device}
            </p>
            {o.payload ? <p className="mt-1 overflow-x-auto rounded-md bg-sunk p-2 text-sm">As written: {o.payload}</p> : null}
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
