import { useEffect, useState } from 'react';
import { useDraft } from './use-draft';

const NOT_YET: { at: number | null } = { at: null };
const MINUTE = 60_000;

/** When the unit was switched on again, wherever on the page it is asked; kept on the tablet, so that it goes on counting over a fall. */
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
