import { useRunClock } from '../../_lib/use-run-clock';
import { Chip } from '../touch';

/** How long it has been running: what "running steadily for" is filled with. */
export function RunClock({ visitId, unitId }: { visitId: string; unitId: string }) {
  const { minutes, start, stop } = useRunClock(visitId, unitId);
  return (
    <div className="flex min-h-14 flex-wrap items-center gap-3 rounded-lg border border-edge bg-sheet px-4 py-2">
      {minutes === null ? (
        <>
          <Chip onClick={start}>It runs again</Chip>
          <span className="text-soft">Counts the minutes, and fills “running steadily for”.</span>
        </>
      ) : (
        <>
          <b role="timer">Running {minutes} min</b>
          <span className="text-soft">{minutes < 10 ? `${10 - minutes} more before it says anything.` : 'Long enough to read.'}</span>
          <Chip className="ml-auto" onClick={stop}>
            It stopped
          </Chip>
        </>
      )}
    </div>
  );
}
