import 'server-only';
import { todayIn, type LocalDate } from '../../../core/calendar';
import { RETURN_WORDS } from '../../../core/evidence';
import type { Tx } from '../../../database/client';
import { visitDate } from '../../evidence/reads/findings-history';

export type ReturnOnFile = { id: string; what: string; open: boolean; visitId: string | null; openedOn: LocalDate };

/** Every "go back" that the guard rails ever asked for at a unit. What a person asks for never has a date to go back by. */
export async function returnsOfUnit(db: Tx, unitId: string, timeZone: string): Promise<ReturnOnFile[]> {
  const rows = await db.followUp.findMany({
    where: { unitId, what: { in: Object.values(RETURN_WORDS) }, dueOn: { not: null }, visitId: { not: null } },
    select: { id: true, what: true, status: true, visitId: true, createdAt: true },
  });
  const visits = await db.visit.findMany({
    where: { id: { in: rows.flatMap((r) => r.visitId ?? []) } },
    select: { id: true, arrivedAt: true, startsAt: true },
  });
  const dayOf = new Map(visits.map((v) => [v.id, visitDate(v, timeZone)]));
  return rows.map(({ createdAt, status, ...r }) => ({
    ...r,
    open: status === 'open',
    openedOn: dayOf.get(r.visitId ?? '') ?? todayIn(timeZone, createdAt.getTime()),
  }));
}
