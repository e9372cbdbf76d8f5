import { SEALED_STEPS } from '@/lib/core/sealed/steps';
import type { UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { to } from '../../_lib/use-place';
import { TouchLink } from '../touch';

/** The way into work on the circuit, and how far it has come. */
export function OpenSealed({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  const here = (visit.entries.sealed ?? []).filter((s) => s.unitId === unit.id);
  const written = new Set([...(unit.openSealed?.steps ?? []), ...here].map((s) => s.step)).size;
  return (
    <TouchLink href={to.sealed(visit.id, unit.id)} className="max-sm:min-h-12 max-sm:py-1 max-sm:text-base">
      Open the sealed system{written > 0 ? ` (${written} of ${SEALED_STEPS.length} steps written)` : ''}
    </TouchLink>
  );
}
