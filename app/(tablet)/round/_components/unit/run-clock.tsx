import { useRunClock } from '../../_lib/use-run-clock';
import { Chip } from '../touch';

/** How long it has been running: what "running steadily for" is filled with. */
export function RunClock({ visitId, unitId }: { visitId: string; unitId: string }) {
  const { minutes, start, stop } = useRunClock(visitId, unitId);
  return (
    <div className="flex min-h-14 items-center gap-3 rounded-lg border border-edge bg-sheet px-2.5 py-1 sm:flex-wrap sm:px-4 sm:py-2">
      {minutes === null ? (
        <>
          <Chip className="shrink-0" onClick={start}>
            It runs again
          </Chip>
          <span className="leading-tight text-soft">Counts the minutes, and fills “running steadily for”.</span>
        </>
      ) : (
        <>
          <b role="timer">Running {minutes} min</b>
          <span className="text-soft">{minutes < 10 ? `${10 - minutes} more before it says anything.` : 'Long enough to read.'}</span>
          <Chip className="ml-auto shrink-0" onClick={stop}>
            It stopped
          </Chip>
        </>
      )}
    </div>
  );
}
