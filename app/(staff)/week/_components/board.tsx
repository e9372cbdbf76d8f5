'use client';

import { useState } from 'react';
import type { BoardRow } from '@/lib/core/visits/board-rows';
import { todayIn, type LocalDate } from '@/lib/core/calendar';
import { dayWords } from '@/lib/core/calendar/when';
import { DropDialog, type Drop } from './drop-dialog';
import { Slip, type SlipVisit } from './slip';

type Props = {
  days: LocalDate[];
  today: LocalDate;
  timeZone: string;
  visits: (SlipVisit & { technicianId: string })[];
  rows: BoardRow[];
};

/** Technicians by days. Empty weekend days fold away. */
export function Board({ days, today, timeZone, visits, rows }: Props) {
  const [over, setOver] = useState('');
  const [drop, setDrop] = useState<Drop | null>(null);
  const dayOf = (v: SlipVisit) => todayIn(timeZone, v.startsAt);
  const shown = days.filter((d, i) => i < 5 || visits.some((v) => dayOf(v) === d));
  const cell = (tech: string, day: LocalDate) => visits.filter((v) => v.technicianId === tech && dayOf(v) === day);
  return (
    <div className="overflow-x-auto" role="region" aria-label="The week by technician" tabIndex={0}>
      <table className="w-full table-fixed max-md:block">
        <thead className="max-md:hidden">
          <tr>
            <th scope="col" className="w-24 border-b-2 border-ink/70 p-2 text-left text-sm">
              Technician
            </th>
            {shown.map((d) => (
              <th
                key={d}
                scope="col"
                aria-current={d === today ? 'date' : undefined}
                className={`border-b-2 p-2 text-left text-sm ${d === today ? 'border-cold text-cold' : 'border-ink/70'}`}
              >
                {dayWords(d)}
                {d === today ? ', today' : ''}
              </th>
            ))}
          </tr>
        </thead>
        <tbody className="max-md:block">
          {rows.map((t) => (
            <tr key={t.id} className="max-md:mb-5 max-md:block">
              <th scope="row" className="border-b border-line p-2 text-left align-top font-bold max-md:block">
                {t.name}
                {t.works ? null : <span className="block text-sm font-normal text-soft">No technician now</span>}
              </th>
              {shown.map((d) => (
                <td
                  key={d}
                  onDragOver={(e) => {
                    if (!t.works) return;
                    e.preventDefault();
                    setOver(`${t.id} ${d}`);
                  }}
                  onDragLeave={() => setOver('')}
                  onDrop={(e) => {
                    e.preventDefault();
                    setOver('');
                    const visit = visits.find((v) => v.id === e.dataTransfer.getData('text/plain'));
                    if (t.works && visit && (visit.technicianId !== t.id || dayOf(visit) !== d))
                      setDrop({ visit, technicianId: t.id, date: d });
                  }}
                  className={`h-24 border-b border-l border-line p-1.5 align-top max-md:block max-md:h-auto max-md:border-l-0 ${over === `${t.id} ${d}` ? 'outline-2 outline-dashed outline-cold' : ''} ${d === today ? 'bg-cold-wash/50' : ''}`}
                >
                  <p className="mb-1 text-sm font-bold text-soft md:hidden">{dayWords(d)}</p>
                  <ul className="flex flex-col gap-1.5">
                    {cell(t.id, d).map((v) => (
                      <li key={v.id}>
                        {v.driveMinutes ? <p className="mb-1 px-2 text-xs text-soft">{Math.round(v.driveMinutes)} min drive</p> : null}
                        <Slip visit={v} />
                      </li>
                    ))}
                    {cell(t.id, d).length === 0 ? <li className="text-sm text-soft md:sr-only">Nothing booked</li> : null}
                  </ul>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {drop ? (
        <DropDialog
          key={`${drop.visit.id} ${drop.visit.version}`}
          drop={drop}
          current={visits.find((v) => v.id === drop.visit.id)?.version}
          technicians={rows.filter((t) => t.works).map((t) => ({ value: t.id, label: t.name }))}
          onClose={() => setDrop(null)}
        />
      ) : null}
      {rows.length === 0 ? <p className="p-4 text-soft">No technician is on file yet. The owner adds people under People.</p> : null}
    </div>
  );
}
