import type { OfferedMove, SqueezeOffer } from '@/lib/core/planning/squeeze/offer';
import { Button } from '@/app/_ui/buttons/button';
import { dayIn, momentIn, momentSpanIn, timeIn } from '@/lib/core/calendar/when';
import { kitchenInFull } from '@/lib/core/wording/kitchen-name';

type Props = { offer: SqueezeOffer; timeZone: string; first: boolean; busy: boolean; onTake: () => void };

export function Offer({ offer: o, timeZone, first, busy, onTake }: Props) {
  const when = momentSpanIn(o.startMs, o.endMs, timeZone);
  return (
    <li className="rounded-lg border border-line bg-sheet p-4">
      <div className="flex flex-wrap items-start justify-between gap-x-6 gap-y-3">
        <div className="min-w-0">
          <h3>
            {when} · {o.technician}
          </h3>
          <p className="text-soft">
            {[
              waits(o.waitMinutes),
              driving(o.extraDriveMinutes),
              o.onCall ? `on call${o.phone ? `, ${o.phone}` : ', no number on file'}` : '',
              o.overtimeMinutes > 0 ? `day ends ${span(o.overtimeMinutes)} past the shift` : '',
            ]
              .filter(Boolean)
              .join(' · ')}
          </p>
        </div>
        <Button look={first ? 'primary' : 'plain'} disabled={busy} onClick={onTake}>
          {busy ? 'Booking …' : o.moves.length === 0 ? 'Book this' : `Book and move ${o.moves.length}`}
          <span className="sr-only">
            : {when}, {o.technician}
          </span>
        </Button>
      </div>
      {o.moves.length === 0 ? <p className="mt-2">Nothing else moves.</p> : null}
      <ul className="mt-2 flex flex-col">
        {o.moves.map((m) => (
          <li key={m.visitId} className="border-t border-line py-1.5">
            {/* In a tab of its own, so that nothing typed is lost. */}
            <a href={`/week/${m.visitId}`} target="_blank" className="font-bold">
              {kitchenInFull(m)}
            </a>{' '}
            {moved(m)}
            {m.confirmed ? <span className="text-alarm"> It had confirmed.</span> : null}
          </li>
        ))}
      </ul>
    </li>
  );
}

const waits = (minutes: number) => (minutes < 1 ? 'at once' : `waits ${span(minutes)}`);
const driving = (minutes: number) =>
  minutes === 0 ? 'no more driving' : minutes > 0 ? `${minutes} min more driving` : `${-minutes} min less driving`;

function span(minutes: number): string {
  if (minutes < 90) return `${minutes} min`;
  if (minutes < 36 * 60) return `${Math.floor(minutes / 60)} h ${minutes % 60 === 0 ? '' : `${minutes % 60} min`}`.trim();
  const hours = Math.round(minutes / 60);
  return `${Math.floor(hours / 24)} days${hours % 24 === 0 ? '' : ` ${hours % 24} h`}`;
}

/** "goes from 10:00 to 11:15", with the day and the technician where they change. */
function moved(m: OfferedMove): string {
  const sameDay = dayIn(m.wasMs, m.timeZone) === dayIn(m.startMs, m.timeZone);
  const to = `${sameDay ? '' : `${dayIn(m.startMs, m.timeZone)}, `}${timeIn(m.startMs, m.timeZone)}`;
  const whose = m.fromTechnician === m.technician ? '' : ` and from ${m.fromTechnician} to ${m.technician}`;
  return `goes from ${momentIn(m.wasMs, m.timeZone)} to ${to}${whose}.`;
}
