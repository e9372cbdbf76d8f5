import 'server-only';
import { todayIn } from '../../../core/calendar';
import { RETURN_WORDS, type ReturnOnFile } from '../../../core/evidence';
import { groupBy } from '../../../core/numerics/group-by';
import type { Tx } from '../../../database/client';
import { visitDate } from '../../evidence/reads/findings-history';

/** Every "go back" that the guard rails ever asked for at some units, by unit. */
export async function returnsOfUnits(db: Tx, unitIds: readonly string[], timeZone: string): Promise<Map<string, ReturnOnFile[]>> {
  const rows = await db.followUp.findMany({
    where: { unitId: { in: [...unitIds] }, what: { in: Object.values(RETURN_WORDS) }, dueOn: { not: null }, visitId: { not: null } },
    select: { id: true, unitId: true, what: true, status: true, visitId: true, createdAt: true },
  });
  const visits = await db.visit.findMany({
    where: { id: { in: rows.flatMap((r) => r.visitId ?? []) } },
    select: { id: true, arrivedAt: true, startsAt: true },
  });
  const dayOf = new Map(visits.map((v) => [v.id, visitDate(v, timeZone)]));
  const told = rows.map(({ createdAt, status, ...r }) => ({
    ...r,
    open: status === 'open',
    openedOn: dayOf.get(r.visitId ?? '') ?? todayIn(timeZone, createdAt.getTime()),
  }));
  return groupBy(told, (r) => r.unitId);
}
