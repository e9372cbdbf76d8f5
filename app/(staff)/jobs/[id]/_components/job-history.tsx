import Link from 'next/link';
import { JOB_STATE_LABEL, type JobState } from '@/lib/core/jobs';
import { momentIn } from '@/lib/core/calendar/when';
import { Sheet } from '@/app/_ui/page/sheet';

type Event = {
  id: string;
  at: Date;
  kind: 'opened' | 'moved' | 'found_again' | 'taken_back' | 'changed';
  from: JobState | null;
  to: JobState | null;
  reason: string;
  visitId: string | null;
  by: string;
};

/** Everything that happened to a job, the latest first: who, when, from where to where, and why. */
export function JobHistory({ events, timeZone }: { events: readonly Event[]; timeZone: string }) {
  return (
    <Sheet title="History">
      <ol>
        {[...events].reverse().map((e) => (
          <li key={e.id} className="border-b border-line py-1.5 last:border-0">
            <b>{words(e)}</b>{' '}
            <span className="text-soft">
              {momentIn(e.at, timeZone)}, {e.by}
              {e.visitId ? (
                <>
                  , <Link href={`/visits/${e.visitId}`}>visit</Link>
                </>
              ) : null}
            </span>
            {e.reason ? <span className="block">{e.reason}</span> : null}
          </li>
        ))}
      </ol>
    </Sheet>
  );
}

function words({ kind, from, to }: Event): string {
  if (kind === 'opened') return 'Opened';
  if (kind === 'found_again') return 'Found again';
  if (kind === 'taken_back') return 'Taken back: found again';
  if (kind === 'changed' || !to) return 'Changed';
  return from ? `${JOB_STATE_LABEL[from]} → ${JOB_STATE_LABEL[to]}` : JOB_STATE_LABEL[to];
}
