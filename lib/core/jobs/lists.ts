import { JOB_URGENCIES, JOB_WAITS, waitsFor, type JobStand, type JobUrgency, type JobWait } from './states';

type Waiting = JobStand & { urgency: JobUrgency; dueOn: string | null; number: number };

/** Open jobs by what they wait for, in the order of who acts; within a list the most urgent first, then the soonest due, then the oldest. */
export function listsOf<J extends Waiting>(jobs: readonly J[]): { wait: JobWait; jobs: J[] }[] {
  const ordered = [...jobs].sort(
    (a, b) =>
      JOB_URGENCIES.indexOf(a.urgency) - JOB_URGENCIES.indexOf(b.urgency) ||
      (a.dueOn ?? '9999').localeCompare(b.dueOn ?? '9999') ||
      a.number - b.number,
  );
  return JOB_WAITS.map((wait) => ({ wait, jobs: ordered.filter((j) => waitsFor(j) === wait) })).filter((l) => l.jobs.length > 0);
}
