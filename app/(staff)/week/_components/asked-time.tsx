import { todayIn, clockIn } from '@/lib/core/calendar';
import { Sheet } from '@/app/_ui/page/sheet';
import { momentIn } from '@/lib/core/calendar/when';
import { VisitLine } from '../../_components/open-visits';
import { MoveThere } from './change-forms';

type Props = {
  visitId: string;
  version: number;
  asksFor: number | null;
  timeZone: string;
  note: string;
  /** Who is free then. */
  technician: { id: string; name: string } | null;
  now: { id: string; name: string };
  minutes: string;
};

/** What the kitchen asked for instead, and the move there if someone is still free. */
export function AskedTime({ visitId, version, asksFor, timeZone, note, technician, now, minutes }: Props) {
  return (
    <Sheet title="The kitchen asks for another time" className="border-2 border-cold!">
      <p>
        {asksFor === null ? 'No time was named.' : <strong>{momentIn(asksFor, timeZone)}</strong>}
        {note ? ` “${note}”` : ''}
      </p>
      {asksFor === null ? null : technician ? (
        <div className="mt-3">
          <p className="mb-2 text-soft">
            {technician.id === now.id ? `${technician.name} is free then.` : `${now.name} is not free then; ${technician.name} is.`}
          </p>
          <MoveThere
            visitId={visitId}
            version={version}
            to={{ technicianId: technician.id, date: todayIn(timeZone, asksFor), from: clockIn(timeZone, asksFor), minutes }}
          />
        </div>
      ) : (
        <p className="mt-2 text-soft">
          That time can no longer be had: nobody is free, or the kitchen cannot spare its equipment. Phone the kitchen and move the visit
          below.
        </p>
      )}
    </Sheet>
  );
}

type Row = { id: string; kitchen: string; customer: string; timeZone: string; startsAt: number; asksFor: number | null };

export function AskedOtherTime({ visits }: { visits: Row[] }) {
  return (
    <aside aria-labelledby="asked-other-time" className="rounded-lg border-2 border-cold bg-sheet p-4 max-xl:order-first">
      <h2 id="asked-other-time">Asked for another time</h2>
      <ul className="mt-2 flex flex-col">
        {visits.map((v) => (
          <VisitLine key={v.id} visit={v}>
            {momentIn(v.startsAt, v.timeZone)} → {v.asksFor === null ? 'no time named' : momentIn(v.asksFor, v.timeZone)}
          </VisitLine>
        ))}
      </ul>
    </aside>
  );
}
