import { JOB_OUTCOME_LABEL, JOB_OUTCOMES, OUTCOME_ASKS_WHY } from '@/lib/core/entries/entries';
import { JOB_URGENCY_LABEL } from '@/lib/core/jobs/states';
import { State } from '@/app/_ui/states/state';
import type { JobOnVisit, VisitOnFile } from '@/lib/core/tablet';
import { useDraft } from '../../_lib/use-draft';
import { useWrite } from '../../_lib/use-write';
import { EntryMark } from '../entry-mark';
import { Chip, TouchField } from '../touch';

const JOBS_ID = 'jobs';

/** What somebody asked for here, before anything planned: the caller's words, how soon, and what became of it in one tap. */
export function Jobs({ visit }: { visit: VisitOnFile }) {
  const jobs = visit.jobs ?? [];
  if (jobs.length === 0) return null;
  return (
    <section id={JOBS_ID} className="flex flex-col gap-2">
      <h2>Asked for here</h2>
      <ul className="flex flex-col gap-2">
        {jobs.map((job) => (
          <li key={job.id}>
            <JobCard visit={visit} job={job} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function JobCard({ visit, job }: { visit: VisitOnFile; job: JobOnVisit }) {
  const { write, busy } = useWrite(visit.id);
  const { draft: note, setDraft, clear } = useDraft(`${visit.id}:job:${job.id}`, '');
  const said = (visit.entries.jobOutcomes ?? []).find((o) => o.jobId === job.id);
  const units = visit.units.filter((u) => job.unitIds.includes(u.id)).map((u) => u.name);
  const pressing = job.urgency === 'now' || job.urgency === 'today';
  const typed = note.trim();
  const id = `job-note-${job.id}`;
  return (
    <div className={`rounded-lg border bg-sheet p-3 ${job.booked && !said ? 'border-2 border-cold' : 'border-edge'}`}>
      <div className="flex flex-wrap items-baseline justify-between gap-x-4">
        <b className="text-lg">{job.what}</b>
        <State shape={pressing ? 'late' : 'later'} tone={pressing ? 'alarm' : 'soft'}>
          {JOB_URGENCY_LABEL[job.urgency]}
        </State>
      </div>
      <p className="text-soft">{[`Job ${job.number}`, ...units].join(' · ')}</p>
      {job.note ? <p className="whitespace-pre-line">{job.note}</p> : null}
      {said ? (
        <p className="mt-2 flex flex-wrap items-center gap-2">
          <b>{JOB_OUTCOME_LABEL[said.outcome]}</b> {said.note} <EntryMark id={said.id} />
        </p>
      ) : null}
      <div className="mt-2">
        <TouchField id={id} label="Which part, or why not" value={note} maxLength={500} onChange={(e) => setDraft(e.target.value)} />
      </div>
      <div role="group" aria-label={`What became of it: ${job.what}`} className="mt-2 flex flex-wrap gap-2">
        {JOB_OUTCOMES.map((outcome) => (
          <Chip
            key={outcome}
            on={said?.outcome === outcome}
            disabled={busy || (OUTCOME_ASKS_WHY[outcome] && typed.length < 3)}
            onClick={() => void write('job.outcome', { jobId: job.id, outcome, note: typed }).then((kept) => (kept ? clear() : undefined))}
          >
            {JOB_OUTCOME_LABEL[outcome]}
          </Chip>
        ))}
      </div>
    </div>
  );
}
