import 'server-only';
import type { JobOnVisit } from '../../../core/tablet';
import type { Tx } from '../../../database/client';

type Visit = { id: string; kitchenId: string; status: string };

/**
 * The jobs that a technician meets at some visits: those booked on them, those they said something of, and at a visit that is
 * not over whatever else is open in its kitchen and waits for nothing but somebody coming.
 */
export async function jobsToDo(db: Tx, visits: readonly Visit[]): Promise<(visit: Visit) => JobOnVisit[]> {
  const ids = visits.map((v) => v.id);
  const rows = await db.job.findMany({
    where: {
      OR: [
        { visitId: { in: ids } },
        { outcomes: { some: { visitId: { in: ids } } } },
        {
          kitchenId: { in: visits.map((v) => v.kitchenId) },
          state: { in: ['asked', 'looked_at', 'agreed'] },
          needsQuote: false,
          partsWanted: false,
        },
      ],
    },
    orderBy: [{ urgency: 'asc' }, { number: 'asc' }],
    include: { units: { select: { unitId: true }, orderBy: { unitId: 'asc' } }, outcomes: { select: { visitId: true } } },
  });
  return (visit) =>
    rows
      .filter(
        (j) =>
          j.visitId === visit.id ||
          j.outcomes.some((o) => o.visitId === visit.id) ||
          (j.kitchenId === visit.kitchenId &&
            j.state !== 'booked' &&
            j.closedAt === null &&
            (visit.status === 'booked' || visit.status === 'started')),
      )
      // Found at this very visit, it is among what was wanted there.
      .filter((j) => j.foundVisitId !== visit.id || j.visitId === visit.id)
      .map(({ id, number, what, note, urgency, units, visitId }) => ({
        id,
        number,
        what,
        note,
        urgency,
        booked: visitId === visit.id,
        unitIds: units.map((u) => u.unitId),
      }));
}
