import 'server-only';
import type { LocalDate } from '../../core/calendar';
import { returnVisits, type UnitBelief } from '../../core/evidence';
import { fromLocalDate } from '../../data/dates';
import type { Tx } from '../../data/client';

type Asked = { belief: UnitBelief; visitId: string; on: LocalDate; withinDays: number; by: string | null; now: Date };

/** Opens the return visits that the guard rails ask for; one that is open for the same cause already is not doubled. */
export async function openReturnVisits(tx: Tx, { belief, visitId, on, withinDays, by, now }: Asked): Promise<string[]> {
  const { unitId, findings, trips } = belief.file;
  const since = [...belief.file.cleanings].filter((d) => d < on).at(-1) ?? '';
  const tripped = trips.some((t) => t > since && t <= on);
  const ids: string[] = [];
  for (const { what, note, dueOn } of returnVisits(on, findings, tripped, withinDays)) {
    const open = await tx.followUp.findFirst({ where: { unitId, what, OR: [{ status: 'open' }, { visitId }] }, select: { id: true } });
    if (open) continue;
    const made = await tx.followUp.create({
      data: { unitId, visitId, what, note, urgency: 'soon', dueOn: fromLocalDate(dueOn), createdById: by, createdAt: now },
      select: { id: true },
    });
    ids.push(made.id);
  }
  return ids;
}
