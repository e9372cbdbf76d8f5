import { State } from '@/app/_ui/states/state';
import { dayDateIn } from '@/lib/core/calendar/when';

type Props = { settled: { id: string; what: string; declined: boolean; at: Date; by: string | null; note: string }[]; timeZone: string };

/** What became of the jobs that no longer stand open. */
export function SettledJobs({ settled, timeZone }: Props) {
  return (
    <ul className="flex flex-col gap-2">
      {settled.map((f) => (
        <li key={f.id}>
          <State shape={f.declined ? 'off' : 'done'}>{f.declined ? 'Declined' : 'Done'}</State> {f.what}{' '}
          <span className="text-soft">
            {f.by ? `by ${f.by}, ` : ''}
            {dayDateIn(f.at, timeZone)}
            {f.note ? `: ${f.note}` : ''}
          </span>
        </li>
      ))}
    </ul>
  );
}
