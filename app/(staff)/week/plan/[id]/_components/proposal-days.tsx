import { useState, type ReactNode } from 'react';
import { dayIn } from '@/lib/core/calendar/when';
import { counted } from '@/lib/core/wording/counted';
import type { RowVisit } from './proposal-row';

/** As many stand open; of more, the days are folded. */
const OPEN_UP_TO = 20;

const groupsBy = (rows: readonly RowVisit[], key: (v: RowVisit) => string): [string, RowVisit[]][] => {
  const groups = new Map<string, RowVisit[]>();
  for (const v of rows) groups.set(key(v), [...(groups.get(key(v)) ?? []), v]);
  return [...groups];
};

type Props = { rows: RowVisit[]; chosen: ReadonlySet<string>; nameOf: (technicianId: string) => string; row: (v: RowVisit) => ReactNode };

/** The proposed visits by day and technician, folded and with a way to find a kitchen where they are many. */
export function ProposalDays({ rows, chosen, nameOf, row }: Props) {
  const [find, setFind] = useState('');
  const many = rows.length > OPEN_UP_TO;
  const sought = find.trim().toLowerCase();
  const found = sought ? rows.filter((v) => `${v.customer} ${v.kitchen} ${nameOf(v.technicianId)}`.toLowerCase().includes(sought)) : rows;
  if (!many) return <ul>{rows.map(row)}</ul>;
  return (
    <>
      <label className="mb-2 flex flex-wrap items-center gap-2">
        <span>Find a kitchen among them</span>
        <input
          type="search"
          value={find}
          onChange={(e) => setFind(e.target.value)}
          autoComplete="off"
          className="min-h-10 w-full max-w-72 rounded-md border border-edge bg-sheet px-3"
        />
      </label>
      <p role="status" className="text-sm text-soft">
        {sought ? `${found.length} of ${rows.length}` : ''}
      </p>
      {groupsBy(found, (v) => dayIn(v.startMs, v.timeZone)).map(([day, visits]) => (
        <details
          key={`${day} ${sought ? 'found' : ''}`}
          open={sought !== '' && found.length <= OPEN_UP_TO}
          className="border-b border-line py-2 last:border-0"
        >
          <summary className="min-h-9 py-1">
            <span className="font-bold">{day}</span>: {counted(visits.length, 'visit')}, {visits.filter((v) => chosen.has(v.key)).length}{' '}
            chosen
          </summary>
          {groupsBy(visits, (v) => nameOf(v.technicianId)).map(([name, own]) => (
            <section key={name} className="mt-2">
              <h3 className="text-base">
                {name}, {counted(own.length, 'visit')}
              </h3>
              <ul>{own.map(row)}</ul>
            </section>
          ))}
        </details>
      ))}
    </>
  );
}
