import type { QuotedPart, VisitOnFile } from './state';

/** A part that an agreed quote counts on, and the unit it is for where that is one. */
export type PartForeseen = QuotedPart & { unitId: string | null };

/** What the quotes of the jobs booked on a visit count on and nobody has written down yet. */
export function partsForeseen(visit: VisitOnFile): PartForeseen[] {
  const used = visit.entries.parts;
  return (visit.jobs ?? [])
    .filter((j) => j.booked)
    .flatMap((j) => (j.parts ?? []).map((p) => ({ ...p, unitId: j.unitIds.length === 1 ? (j.unitIds[0] ?? null) : null })))
    .filter((p) => !used.some((u) => (p.partId ? u.partId === p.partId : u.what === p.what)));
}
