import type { Cause } from '@/lib/core/condenser/types';
import { CAUSE_LABEL, likelyWords } from '@/lib/core/condenser/words/causes';

/** Less than this is not worth a technician's time. */
const WORTH_SAYING = 0.08;

/** Likely causes, the likeliest first, each with the look that would decide. */
export function Causes({ causes, fine }: { causes: readonly Cause[]; fine: boolean }) {
  const shown = causes.filter((c) => c.weight >= WORTH_SAYING && c.id !== 'nothing').slice(0, 3);
  if (shown.length === 0) return null;
  return (
    <div className="mt-3">
      <h3>{fine ? 'If it is something after all' : 'Likely causes'}</h3>
      <ul className="mt-1 flex flex-col gap-1">
        {shown.map((c) => (
          <li key={c.id} className="grid grid-cols-[7rem_1fr] gap-x-3">
            <span className="text-soft">
              {likelyWords(c.weight)}, {Math.round(c.weight * 100)} %
            </span>
            <span>
              <b className="inline-block first-letter:uppercase">{CAUSE_LABEL[c.id]}</b>
              {c.next ? <span className="block text-[0.95rem] text-soft">{c.next}</span> : null}
            </span>
          </li>
        ))}
      </ul>
    </div>
  );
}
