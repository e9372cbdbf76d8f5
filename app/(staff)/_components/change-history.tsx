import { actionWords, fieldWords, valueWords } from '@/lib/core/audit/words';
import { dayDateIn, timeIn } from '@/lib/core/calendar/when';

type Change = { id: string; at: Date; by: string; action: string; changed: { field: string; from: unknown; to: unknown }[] };

/** Who changed this record and what, folded away until somebody asks. Values stand as on file, in SI units. */
export function ChangeHistory({ changes, timeZone }: { changes: Change[]; timeZone: string }) {
  if (changes.length === 0) return null;
  return (
    <details className="mt-6 no-print">
      <summary className="text-soft">Who changed what, {changes.length === 1 ? 'one entry' : `${changes.length} entries`}</summary>
      <ul className="mt-2 flex flex-col gap-2 text-sm">
        {changes.map((c) => (
          <li key={c.id} className="border-b border-line pb-2">
            <b>{actionWords(c.action)}</b>{' '}
            <span className="text-soft">
              {dayDateIn(c.at, timeZone)}, {timeIn(c.at, timeZone)}, {c.by}
            </span>
            {c.changed.map(({ field, from, to }) => (
              <span key={field} className="block break-words">
                {fieldWords(field)}: {from === undefined ? '' : `${valueWords(from)} → `}
                {valueWords(to)}
              </span>
            ))}
          </li>
        ))}
      </ul>
    </details>
  );
}
