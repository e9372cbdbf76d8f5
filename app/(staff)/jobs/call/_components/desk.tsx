import { fullKitchenName } from '@/lib/core/wording/kitchen-name';
import Link from 'next/link';
import type { LocalDate } from '@/lib/core/calendar';
import { daysBetween } from '@/lib/core/calendar';
import { ASPECT_LABEL, gradeWords, type Aspect } from '@/lib/core/findings/grades';
import { dateWords, dayIn, dayWords, momentIn } from '@/lib/core/calendar/when';
import { counted } from '@/lib/core/wording/counted';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { JobLines, type Line } from '../../_components/job-lines';

type Seen = { id: string; startsAt: Date; note: string; technician: { name: string } };
type DeskShown = {
  kitchen: {
    id: string;
    name: string;
    address: string;
    timeZone: string;
    contactName: string;
    contactPhone: string;
    accessNotes: string;
    customer: { name: string };
  };
  today: LocalDate;
  last: Seen | null;
  coming: Seen[];
  trouble: { unitId: string; unit: string; aspect: Aspect; grade: string; at: Date }[];
  jobs: Line[];
  overdue: number;
  past: { on: LocalDate; unitId: string; what: string; visitId: string | null; by: string | null }[];
};

/** The kitchen that rings, on one screen: when we were last there, what was found, what is open, and when we come anyway. */
export function Desk({ desk }: { desk: DeskShown }) {
  const { kitchen, last, coming, trouble, jobs, overdue, past, today } = desk;
  const zone = kitchen.timeZone;
  const recent = [...new Map(past.map((p) => [`${p.on} ${p.what}`, p])).values()].sort((a, b) => (a.on < b.on ? 1 : -1)).slice(0, 6);
  return (
    <Sheet
      title={<Link href={`/kitchens/${kitchen.id}`}>{fullKitchenName(kitchen)}</Link>}
      aside={<span className="text-soft">{[kitchen.address, kitchen.contactPhone].filter(Boolean).join(' · ')}</span>}
    >
      <dl className="grid grid-cols-1 gap-x-6 gap-y-4 sm:grid-cols-2">
        <div>
          <dt className="font-bold">Last there</dt>
          <dd>
            {last ? (
              <>
                <Link href={`/visits/${last.id}`}>{dayIn(last.startsAt, zone)}</Link>, {last.technician.name}
              </>
            ) : (
              'Never yet.'
            )}
          </dd>
        </div>
        <div>
          <dt className="font-bold">Next there</dt>
          <dd>
            {coming.length === 0
              ? 'Nothing booked.'
              : coming.slice(0, 2).map((v) => (
                  <span key={v.id} className="block">
                    <Link href={`/week/${v.id}`}>{momentIn(v.startsAt, zone)}</Link>, {v.technician.name}
                  </span>
                ))}
          </dd>
        </div>
        <div className="sm:col-span-2">
          <dt className="font-bold">Left standing at the last look</dt>
          <dd>
            {trouble.length === 0 ? 'Nothing failed.' : null}
            {trouble.map((t) => (
              <span key={`${t.unitId} ${t.aspect}`} className="block">
                <State shape="late" tone="alarm">
                  {ASPECT_LABEL[t.aspect]}: {gradeWords(t)}
                </State>{' '}
                <Link href={`/units/${t.unitId}`}>{t.unit}</Link> <span className="text-soft">{dayIn(t.at, zone)}</span>
              </span>
            ))}
          </dd>
        </div>
        <div className="sm:col-span-2">
          <dt className="font-bold">Done in the last 30 days: a call about it is a repeat</dt>
          <dd>
            {recent.length === 0 ? 'Nothing.' : null}
            {recent.map((p) => (
              <span key={`${p.on} ${p.what}`} className="block">
                {p.what}{' '}
                <span className="text-soft">
                  {counted(daysBetween(p.on, today), 'day')} ago, {dayWords(p.on)}
                  {p.by ? `, ${p.by}` : ''}
                </span>
              </span>
            ))}
          </dd>
        </div>
        {overdue > 0 ? (
          <div className="sm:col-span-2">
            <dt className="font-bold">Overdue</dt>
            <dd>
              <Link href={`/due?kitchen=${kitchen.id}`}>{counted(overdue, 'task')}</Link>, as of {dateWords(today)}
            </dd>
          </div>
        ) : null}
      </dl>
      <h3 className="mt-5">Open jobs</h3>
      {jobs.length === 0 ? <p>None.</p> : <JobLines lines={jobs} place={false} />}
      {kitchen.accessNotes ? (
        <>
          <h3 className="mt-5">Access</h3>
          <p className="whitespace-pre-line">{kitchen.accessNotes}</p>
        </>
      ) : null}
    </Sheet>
  );
}
