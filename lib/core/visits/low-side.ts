type TaskLike = { id: string; unitId: string; kindKey: string; lowSide: boolean; onVisit: unknown };

/**
 * The chosen tasks, plus the low-side inspections of every unit whose coil is to be cleaned, unless they stand on
 * another visit. Whoever cleans the coil and skips the low side gets burned.
 */
export function withLowSide<T extends TaskLike>(all: readonly T[], chosenIds: readonly string[]): T[] {
  const chosen = new Set(chosenIds);
  const coils = new Set(all.filter((t) => chosen.has(t.id) && t.kindKey === 'coil_cleaning').map((t) => t.unitId));
  return all.filter((t) => chosen.has(t.id) || (t.lowSide && coils.has(t.unitId) && !t.onVisit));
}
