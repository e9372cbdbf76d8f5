import 'server-only';
import { AppError } from '../../core/errors';
import type { BookVisit } from '../../schemas/visits';
import type { Db } from '../../data/client';
import type { Actor } from '../../core/access';
import { composeVisitMessage } from '../mail/compose-visit-message';
import { refusedBy } from '../../data/constraints';
import { kitchenTasks } from '../../data/visits';
import { withLowSide } from '../../core/booking/low-side';
import { checkedSlot, overlapError } from './slot';

/**
 * Books due tasks of one kitchen onto a technician, a day and a time. The low side of every coil to be cleaned
 * rides along. The database refuses an overlap and a task that already stands on an open visit.
 * @throws AppError invalid | not_found | overlap | conflict
 */
export async function bookVisit({ db, actor, now, baseUrl }: { db: Db; actor: Pick<Actor, 'userId'>; now: Date; baseUrl: string }, input: BookVisit): Promise<{ visitId: string }> {
  const all = await kitchenTasks(db, input.kitchenId);
  const chosen = withLowSide(all, input.taskIds);
  if (chosen.length < input.taskIds.length) throw new AppError('conflict', 'A chosen task is no longer on file at this kitchen. Choose again.', 'taskIds');
  const taken = chosen.find((t) => t.onVisit);
  if (taken) throw new AppError('conflict', `${taken.kind} of ${taken.unit} already stands on another visit. Take it out or move that visit.`, 'taskIds');
  const { kitchen, startsAt, endsAt } = await checkedSlot(db, input.kitchenId, input, chosen, input.anyway);
  try {
    return await db.$transaction(async (tx) => {
      const visit = await tx.visit.create({
        data: {
          kitchenId: kitchen.id, technicianId: input.technicianId, startsAt, endsAt, note: input.note, fixed: input.fixed, createdById: actor.userId, createdAt: now,
          tasks: { create: chosen.map((t) => ({ taskId: t.id, unitId: t.unitId })) },
          events: { create: { kind: 'booked', at: now, byUserId: actor.userId, detail: { startsAt, endsAt, technicianId: input.technicianId } } },
        },
      });
      await composeVisitMessage(tx, visit.id, 'booked', { now, baseUrl });
      return { visitId: visit.id };
    });
  } catch (e) {
    const rule = refusedBy(e);
    if (rule === 'visit_technician_no_overlap') throw await overlapError(db, input.technicianId, startsAt, endsAt);
    if (rule === 'visit_task_one_open') throw new AppError('conflict', 'Someone booked one of these tasks a moment ago. Look at the kitchen again.', 'taskIds');
    throw e;
  }
}
