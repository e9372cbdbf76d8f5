import Link from 'next/link';
import { toLocalDate } from '@/lib/core/calendar/date-column';
import { Sheet } from '@/app/_ui/page/sheet';
import { State } from '@/app/_ui/states/state';
import { dayIn, dayWords } from '@/lib/core/calendar/when';
import { ASPECT_LABEL, gradeWords, type Aspect } from '@/lib/core/findings/grades';
import { JOB_STATE_LABEL, JOB_URGENCY_LABEL, type JobState, type JobUrgency } from '@/lib/core/jobs';
import { SettleJob } from '../../_components/settle-job';

type OpenJob = { id: string; number: number; what: string; state: JobState; urgency: JobUrgency; dueOn: Date | null; createdAt: Date };
type Props = {
  found: { aspect: Aspect; grade: string; at: Date }[];
  jobs: OpenJob[];
  timeZone: string;
  maySettle: boolean;
};

/** What stands wrong with the unit, before anything else is read of it. */
export function Trouble({ found, jobs, timeZone, maySettle }: Props) {
  if (found.length + jobs.length === 0) return null;
  return (
    <Sheet title="Stands open">
      <ul className="flex flex-col gap-2">
        {found.map((f) => {
          return (
            <li key={f.aspect}>
              <State shape="late" tone="alarm">
                {ASPECT_LABEL[f.aspect]}: {gradeWords(f)}
              </State>{' '}
              <span className="text-soft">at the last look, {dayIn(f.at.getTime(), timeZone)}</span>
              {f.aspect === 'condenser_fan' ? (
                <p className="text-sm">
                  It reads like a fouled coil, and cleaning will not help. Isolate the unit before touching the fan.
                </p>
              ) : null}
            </li>
          );
        })}
        {jobs.map((f) => (
          <li key={f.id}>
            <State shape="ask">Job {f.number}</State> <Link href={`/jobs/${f.id}`}>{f.what}</Link>{' '}
            <span className="text-soft">
              {JOB_STATE_LABEL[f.state].toLowerCase()}, {JOB_URGENCY_LABEL[f.urgency].toLowerCase()}
              {f.dueOn ? `, by ${dayWords(toLocalDate(f.dueOn))}` : ''}, since {dayIn(f.createdAt.getTime(), timeZone)}
            </span>
            {maySettle ? <SettleJob jobId={f.id} what={f.what} /> : null}
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
