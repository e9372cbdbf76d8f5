import { useEffect, useState } from 'react';
import { useDraft } from '../../_lib/use-draft';
import { Chip } from '../touch';

const NOT_YET: { at: number | null } = { at: null };
const MINUTE = 60_000;

/** When the unit was switched on again; kept on the tablet, so that it goes on counting over a fall. */
export function useRunClock(visitId: string, unitId: string) {
  const { draft, setDraft } = useDraft(`${visitId}:${unitId}:running`, NOT_YET);
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    if (draft.at === null) return;
    const tick = setInterval(() => setNow(Date.now()), 15_000);
    return () => clearInterval(tick);
  }, [draft.at]);
  const minutes = draft.at === null ? null : Math.max(0, Math.floor((now - draft.at) / MINUTE));
  return { minutes, start: () => setDraft({ at: Date.now() }), stop: () => setDraft({ at: null }) };
}

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
