import { Sheet } from '@/app/_ui/page/sheet';
import type { UnfitRows } from '@/lib/core/fleet-csv';
import { counted } from '@/lib/core/wording/counted';
import { Choose } from './choose';
import { RunForm } from './run-form';

export type Summary = {
  units: number;
  updates: number;
  tasks: number;
  kitchens: number;
  newKitchens: number;
  customers: number;
  flammable: number;
  kitchenUpdates: number;
};

/** "3 units and 2 kitchens on file changed." */
function changed({ updates, kitchenUpdates }: Summary): string {
  const what = [updates > 0 ? counted(updates, 'unit') : '', kitchenUpdates > 0 ? counted(kitchenUpdates, 'kitchen') : ''].filter(Boolean);
  return what.length > 0 ? `${what.join(' and ')} on file changed.` : '';
}

/** What comes, or came, on file. */
export function Wins({ s }: { s: Summary }) {
  if (s.units === 0) return <p>{changed(s) || 'All of it is on file already; nothing changes.'}</p>;
  return (
    <p>
      {counted(s.units, 'unit')} with {counted(s.tasks, 'task')} in {counted(s.kitchens, 'kitchen')} ({counted(s.newKitchens, 'new one')});{' '}
      {counted(s.customers, 'new customer')}. {changed(s)}
      {s.flammable > 0
        ? ` ${counted(s.flammable, 'unit')} with a flammable refrigerant: only people on file for it can be booked on them.`
        : ''}
    </p>
  );
}

export function Ready({ runId, s, title }: { runId: string; s: Summary; title: string }) {
  return (
    <Sheet title={title}>
      <div className="flex flex-col gap-3">
        <Wins s={s} />
        {s.units + s.updates + s.kitchenUpdates > 0 ? (
          <RunForm runId={runId} units={s.units} updates={s.updates} kitchens={s.kitchenUpdates} />
        ) : null}
      </div>
    </Sheet>
  );
}

export function Causes({ causes }: Pick<UnfitRows, 'causes'>) {
  return (
    <ul className="mb-3">
      {causes.map(({ column, message, rows, first }) => (
        <li key={`${column} ${message}`} className="border-b border-line py-1.5">
          <span className="font-bold">{column || 'The row'}</span>: {message}{' '}
          <span className="text-soft">
            Row {first.join(', ')}
            {rows > first.length ? ` and ${rows - first.length} more` : ''}
          </span>
        </li>
      ))}
    </ul>
  );
}

/** Rows that cannot be filed, by their trouble, and one decision for all of them. */
export function Unfit({ runId, unfit }: { runId: string; unfit: UnfitRows }) {
  return (
    <Sheet title={`${counted(unfit.rows, 'row')} that cannot go on file`}>
      <Causes causes={unfit.causes} />
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
