import { isStopped } from '../findings/grades';
import type { UnitOnFile } from './state';

/**
 * The grade a coil was left with, where it was left matted or packed after each of its last two cleanings, as far as
 * the visits on the tablet tell; null otherwise. Nothing a brush does opens such a coil.
 */
export function pastSaving(unit: Pick<UnitOnFile, 'past'>): string | null {
  const left = [...unit.past]
    .sort((a, b) => b.at.localeCompare(a.at))
    .flatMap((v) =>
      v.findings
        .filter((f) => f.aspect === 'coil' && f.phase === 'left')
        .slice(-1)
        .flatMap((f) => f.grade ?? []),
    );
  const [last, before] = left;
  return last && before && isStopped('coil', last) && isStopped('coil', before) ? last : null;
}
