import Link from 'next/link';
import { JOB_OUTCOME_LABEL, type JobOutcome } from '@/lib/core/entries/entries';
import { JOB_STATE_LABEL, JOB_URGENCY_LABEL, type JobState, type JobUrgency } from '@/lib/core/jobs';
import { Sheet } from '@/app/_ui/page/sheet';

type Job = {
  id: string;
  number: number;
  what: string;
  state: JobState;
  urgency: JobUrgency;
  units: readonly { unit: { id: string; name: string } }[];
  outcomes: readonly { outcome: JobOutcome; note: string }[];
};

/** What somebody asked for that this visit is for, and what became of each. */
export function JobsOnVisit({ jobs }: { jobs: readonly Job[] }) {
  if (jobs.length === 0) return null;
  return (
    <Sheet title="Jobs on this visit">
      <ul>
        {jobs.map((j) => (
          <li key={j.id} className="border-b border-line py-1.5 last:border-0">
            <Link href={`/jobs/${j.id}`} className="font-bold">
              {j.number}. {j.what}
            </Link>
            <span className="block text-soft">
              {[
                j.units.map(({ unit }) => unit.name).join(', '),
                JOB_URGENCY_LABEL[j.urgency],
                ...j.outcomes.map((o) => [JOB_OUTCOME_LABEL[o.outcome], o.note].filter(Boolean).join(': ')),
                j.outcomes.length === 0 && j.state !== 'booked' ? JOB_STATE_LABEL[j.state] : '',
              ]
                .filter(Boolean)
                .join(' · ')}
            </span>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
