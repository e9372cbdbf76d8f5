import 'server-only';
import type { Actor } from '../../../core/people/access';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import { refusedBy } from '../../../database/constraints';
import type { MoveVisit } from '../../../schemas/visits/visits';
import { pastWords } from './past';
import { checkedSlot, overlapError } from './slot';
import { writeMove } from './write-move';

/**
 * Moves a booked visit to another time or technician, keeping why and from where.
 * @throws AppError not_found | conflict | invalid | overlap
 */
export async function moveVisit(
  { db, actor, now, baseUrl }: { db: Db; actor: Pick<Actor, 'userId'>; now: Date; baseUrl: string },
  input: MoveVisit,
): Promise<void> {
  const visit = await db.visit.findUnique({
    where: { id: input.visitId },
    include: { tasks: { include: { task: { include: { unit: true } } } } },
  });
  if (!visit) throw new AppError('not_found', 'That visit is not on file.');
  if (visit.status === 'started')
    throw new AppError('conflict', 'This visit has been started. Cancel it or give it to someone else; its time stays.');
  if (visit.status !== 'booked') throw new AppError('conflict', `A visit that is ${visit.status} cannot be moved.`);
  const { kitchen, startsAt, endsAt } = await checkedSlot(
    db,
    visit.kitchenId,
    input,
    visit.tasks.map((t) => t.task.unit),
    { now, anyway: input.anyway },
  );
  const past = input.back ? pastWords(startsAt.getTime(), kitchen.timeZone, now) : null;
  if (past) throw new AppError('conflict', `${past}: the visit cannot go back there. Move it to a time that is still to come.`);
  const from = { startsAt: visit.startsAt, endsAt: visit.endsAt, technicianId: visit.technicianId };
  try {
    const { version, reason, technicianId } = input;
    await db.$transaction((tx) =>
      writeMove(tx, { visitId: visit.id, version, from, to: { startsAt, endsAt, technicianId }, reason }, { actor, now, baseUrl }),
    );
  } catch (e) {
    if (refusedBy(e) === 'visit_technician_no_overlap') throw await overlapError(db, input.technicianId, startsAt, endsAt, visit.id);
    throw e;
  }
}
