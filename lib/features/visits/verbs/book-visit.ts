import 'server-only';
import { AppError } from '../../../core/errors';
import type { BookVisit } from '../../../schemas/visits/visits';
import type { Db } from '../../../database/client';
import type { Actor } from '../../../core/people/access';
import { refusedBy } from '../../../database/constraints';
import { kitchenTasks } from '../reads/visits';
import { withRiders } from '../../../core/tasks';
import { checkedSlot, overlapError } from './slot';
import { refuseTaken, taskTakenError, writeBooking } from './write-booking';

/**
 * Books due tasks of one kitchen onto a technician, a day and a time. The low side of every coil to be cleaned
 * rides along. The database refuses an overlap and a task that already stands on an open visit.
 * @throws AppError invalid | not_found | overlap | conflict
 */
export async function bookVisit(
  { db, actor, now, baseUrl }: { db: Db; actor: Pick<Actor, 'userId'>; now: Date; baseUrl: string },
  input: BookVisit,
): Promise<{ visitId: string }> {
  const all = await kitchenTasks(db, input.kitchenId);
  const chosen = withRiders(all, input.taskIds);
  if (chosen.length < input.taskIds.length)
    throw new AppError('conflict', 'A chosen task is no longer on file at this kitchen. Choose again.', 'taskIds');
  refuseTaken(chosen);
  const { kitchen, startsAt, endsAt } = await checkedSlot(db, input.kitchenId, input, chosen, { now, anyway: input.anyway });
  try {
    const { technicianId, note, fixed } = input;
    return await db.$transaction(async (tx) => ({
      visitId: await writeBooking(
        tx,
        { kitchenId: kitchen.id, technicianId, startsAt, endsAt, tasks: chosen, note, fixed },
        { actor, now, baseUrl },
      ),
    }));
  } catch (e) {
    if (refusedBy(e) === 'visit_technician_no_overlap') throw await overlapError(db, input.technicianId, startsAt, endsAt);
    throw taskTakenError(e) ?? e;
  }
}
