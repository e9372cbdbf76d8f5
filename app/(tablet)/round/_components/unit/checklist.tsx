import { CHECKLIST_SOURCE, checklistFor } from '@/lib/core/findings/checklist';
import type { UnitKind } from '@/lib/core/equipment/build';
import { Fold } from '../touch';

/** A reminder, not a form: what is found goes into the findings. */
export function Checklist({ kind }: { kind: UnitKind }) {
  return (
    <Fold summary="What to look at on this kind of unit" short="What to look at">
      <ul className="list-disc px-4 pb-3 pl-9">
        {checklistFor(kind).map((line) => (
          <li key={line} className="py-0.5">
            {line}
          </li>
        ))}
      </ul>
      <p className="px-4 pb-4 text-sm text-soft">{CHECKLIST_SOURCE}</p>
    </Fold>
  );
}
