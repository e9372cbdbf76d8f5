import Link from 'next/link';
import { toLocalDate } from '@/lib/core/calendar/date-column';
import { dateWords, dayIn } from '@/lib/core/calendar/when';
import { PART_PLACE_LABEL, type PartPlace } from '@/lib/core/parts';
import { SEALED_STEPS } from '@/lib/core/sealed/steps';
import { timeWords, type TimeSpent } from '@/lib/core/visits/time-on-units';
import { Sheet } from '@/app/_ui/page/sheet';

type Part = {
  id: string;
  what: string;
  quantity: number;
  place: PartPlace | null;
  part: { number: string } | null;
  warranty: { until: Date } | null;
};
type Props = {
  visits: readonly { id: string; startsAt: Date; technician: { name: string }; time: TimeSpent | null; parts: readonly Part[] }[];
  records: readonly { id: string; begunAt: Date; unit: { id: string; name: string }; steps: number }[];
  timeZone: string;
};

/** What was done for the job: visit by visit the time and the parts, and the repair record. */
export function WorkDone({ visits, records, timeZone }: Props) {
  if (visits.length === 0 && records.length === 0) return null;
  return (
    <Sheet title="Time, parts and repair record">
      <ul className="flex flex-col gap-3">
        {visits.map((v) => (
          <li key={v.id}>
            <Link href={`/visits/${v.id}`} className="font-bold">
              {dayIn(v.startsAt, timeZone)}, {v.technician.name}
            </Link>
            <span className="block">
              {v.time ? `At its units ${timeWords(v.time)}.` : <span className="text-soft">Nothing was written down at its units.</span>}
            </span>
            {v.parts.map((p) => (
              <span key={p.id} className="block">
                {p.quantity} × {p.what}
                <span className="text-soft">
                  {[
                    p.part?.number,
                    p.place ? `from ${PART_PLACE_LABEL[p.place]}` : '',
                    p.warranty ? `under warranty until ${dateWords(toLocalDate(p.warranty.until))}` : '',
                  ]
                    .filter(Boolean)
                    .map((words) => `, ${words}`)
                    .join('')}
                </span>
              </span>
            ))}
          </li>
        ))}
        {records.map((r) => (
          <li key={r.id}>
            <Link href={`/units/${r.unit.id}/refrigerant`} className="font-bold">
              Repair record of {r.unit.name}
            </Link>
            , begun {dayIn(r.begunAt, timeZone)}, {r.steps} of {SEALED_STEPS.length} steps written
          </li>
        ))}
      </ul>
      {visits.some((v) => v.time) ? (
        <p className="mt-2 text-sm text-soft">Time is told from when things were written down there, so within the limits given.</p>
      ) : null}
    </Sheet>
  );
}
