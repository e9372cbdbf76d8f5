import { todayIn, type LocalDate } from '@/lib/core/calendar';
import { dayWords } from '../../../_ui/when';
import { Slip, type SlipVisit } from './slip';

type Props = {
  days: LocalDate[];
  today: LocalDate;
  timeZone: string;
  visits: (SlipVisit & { technicianId: string })[];
  technicians: { id: string; name: string }[];
};

/** Technicians by days. Empty weekend days fold away. */
export function Board({ days, today, timeZone, visits, technicians }: Props) {
  const dayOf = (v: SlipVisit) => todayIn(timeZone, v.startsAt);
  const shown = days.filter((d, i) => i < 5 || visits.some((v) => dayOf(v) === d));
  const cell = (tech: string, day: LocalDate) => visits.filter((v) => v.technicianId === tech && dayOf(v) === day);
  return (
    <div className="overflow-x-auto" role="region" aria-label="The week by technician" tabIndex={0}>
      <table className="w-full table-fixed max-md:block">
        <thead className="max-md:hidden">
          <tr>
            <th scope="col" className="w-24 border-b-2 border-ink/70 p-2 text-left text-sm">Technician</th>
            {shown.map((d) => (
              <th key={d} scope="col" aria-current={d === today ? 'date' : undefined} className={`border-b-2 p-2 text-left text-sm ${d === today ? 'border-cold text-cold' : 'border-ink/70'}`}>
                {dayWords(d)}
                {d === today ? ', today' : ''}
              </th>
            ))}
          </tr>
        </thead>
        <tbody className="max-md:block">
          {technicians.map((t) => (
            <tr key={t.id} className="max-md:mb-5 max-md:block">
              <th scope="row" className="border-b border-line p-2 text-left align-top font-bold max-md:block">{t.name}</th>
              {shown.map((d) => (
                <td key={d} className={`h-24 border-b border-l border-line p-1.5 align-top max-md:block max-md:h-auto max-md:border-l-0 ${d === today ? 'bg-cold-wash/50' : ''}`}>
                  <p className="mb-1 text-sm font-bold text-soft md:hidden">{dayWords(d)}</p>
                  <ul className="flex flex-col gap-1.5">
                    {cell(t.id, d).map((v) => (
                      <li key={v.id}>
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
      {technicians.length === 0 ? <p className="p-4 text-soft">No technician is on file yet. The owner adds people under People.</p> : null}
    </div>
  );
}
