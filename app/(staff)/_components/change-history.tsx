import type { ReactNode } from 'react';
import type { ChangeOnFile } from '@/lib/core/audit/change';
import { actionWords, fieldWords, notedWords, valueWords } from '@/lib/core/audit/words';
import { dayDateIn, timeIn } from '@/lib/core/calendar/when';
import { counted } from '@/lib/core/wording/counted';

/** Who changed this record and what, folded away until somebody asks. Values stand as on file, in SI units. */
export function ChangeHistory({ changes, timeZone }: { changes: ChangeOnFile[]; timeZone: string }) {
  if (changes.length === 0) return null;
  return (
    <details className="mt-6 no-print">
      <summary className="text-soft">Who changed what, {counted(changes.length, 'entry', 'entries')}</summary>
      <ul className="mt-2 flex flex-col gap-2 text-sm">
        {changes.map((c) => (
          <ChangeLine key={c.id} change={c} timeZone={timeZone} of={c.part} />
        ))}
      </ul>
    </details>
  );
}

/** One change: what was done to what, when, by whom, and each field from what to what. */
export function ChangeLine({ change: c, timeZone, of }: { change: ChangeOnFile; timeZone: string; of: ReactNode }) {
  const noted = notedWords(c.more);
  return (
    <li className="border-b border-line pb-2">
      <b>{actionWords(c.action)}</b> {of ? <span>{of} </span> : null}
      <span className="text-soft">
        {dayDateIn(c.at, timeZone)}, {timeIn(c.at, timeZone)}, {c.by}
      </span>
      {c.changed.map(({ field, from, to }) => (
        <span key={field} className="block break-words">
          {fieldWords(field)}: {from === undefined ? '' : `${valueWords(from)} → `}
          {valueWords(to)}
        </span>
      ))}
      {noted.length > 0 ? <span className="block break-words">{noted.join(', ')}</span> : null}
    </li>
  );
}
