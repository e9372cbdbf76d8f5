import type { UnitReport } from '@/lib/core/tablet/visit-report';
import { Sheet } from '@/app/_ui/page/sheet';

/** Whether anything was written down about a unit. */
export const touched = (u: UnitReport): boolean =>
  [u.findings, u.readings, u.photos, u.events, u.followUps, u.foodWarnings, u.parts].some((list) => list.length > 0) ||
  u.outcome !== null ||
  u.tasks.some((t) => t.outcome !== 'planned');

/** Units of the visit that nothing has come in about: a line each. */
export function Untouched({ units }: { units: readonly UnitReport[] }) {
  if (units.length === 0) return null;
  return (
    <Sheet title="Nothing written down yet">
      <ul>
        {units.map((u) => (
          <li key={u.id} className="flex flex-wrap justify-between gap-x-4 border-b border-line py-1.5 last:border-0">
            <a href={`/units/${u.id}`}>{u.name}</a>
            <span className="text-soft">{u.tasks.map((t) => t.label).join(', ')}</span>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
