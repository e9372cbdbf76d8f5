import 'server-only';
import { AppError } from '../../../core/errors';
import { moveOrder } from '../../../core/visits/move-order';
import type { Db } from '../../../database/client';
import type { Visit } from '../../../database/generated/client';
import { checkedSpan } from './slot';
import { staleVisitError } from './stale';
import type { MoveToWrite } from './write-move';

type Asked = { visitId: string; version: number; technicianId: string; startMs: number; endMs: number };
type How = { now: Date; reason: string; mayMove: (visit: Visit) => boolean; refusals: { missing: string; ring: string } };

/**
 * Moves as they were agreed to, checked against what is on file now, in an order in which nobody is in two places on the way.
 * Hours and days off were part of the offer.
 * @throws AppError not_found | conflict | invalid | overlap
 */
export async function movesToWrite(db: Db, asked: readonly Asked[], { now, reason, mayMove, refusals }: How): Promise<MoveToWrite[]> {
  const moves: MoveToWrite[] = [];
  for (const { visitId, version, technicianId, startMs, endMs } of asked) {
    const visit = await db.visit.findUnique({
      where: { id: visitId },
      include: { tasks: { where: { open: true }, include: { task: { include: { unit: true } } } } },
    });
    if (!visit) throw new AppError('not_found', refusals.missing);
    if (visit.version !== version || visit.status !== 'booked' || !mayMove(visit)) throw await staleVisitError(db, visitId);
    const units = visit.tasks.map((t) => t.task.unit);
    const to = await checkedSpan(db, visit.kitchenId, technicianId, { start: startMs, end: endMs }, units, { now, anyway: true });
    const from = { startsAt: visit.startsAt, endsAt: visit.endsAt, technicianId: visit.technicianId };
    moves.push({ visitId, version, from, to: { startsAt: to.startsAt, endsAt: to.endsAt, technicianId }, reason });
  }
  const order = moveOrder(moves.map((write) => ({ from: place(write.from), to: place(write.to), write })));
  if (!order) throw new AppError('conflict', refusals.ring);
  return order.map((m) => m.write);
}

const place = ({ technicianId, startsAt, endsAt }: MoveToWrite['from']) => ({
  technicianId,
  start: startsAt.getTime(),
  end: endsAt.getTime(),
});
