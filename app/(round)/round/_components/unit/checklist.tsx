import { CHECKLIST_SOURCE, checklistFor } from '@/lib/core/findings/checklist';
import type { UnitKind } from '@/lib/core/equipment';

/** A reminder, not a form: what is found goes into the findings. */
export function Checklist({ kind }: { kind: UnitKind }) {
  return (
    <details className="rounded-lg border border-line bg-sheet">
      <summary className="flex min-h-14 items-center px-4 font-bold">What to look at on this kind of unit</summary>
      <ul className="list-disc px-4 pb-3 pl-9">
        {checklistFor(kind).map((line) => (
          <li key={line} className="py-0.5">
            {line}
          </li>
        ))}
      </ul>
      <p className="px-4 pb-4 text-sm text-soft">{CHECKLIST_SOURCE}</p>
    </details>
  );
}
