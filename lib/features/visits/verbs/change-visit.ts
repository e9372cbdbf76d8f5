import 'server-only';
import type { Actor } from '../../../core/people/access';
import { AppError } from '../../../core/errors';
import { withRiders } from '../../../core/tasks';
import { counted } from '../../../core/wording/counted';
import type { Db } from '../../../database/client';
import { refusedBy } from '../../../database/constraints';
import type { ChangeVisit } from '../../../schemas/visits/visits';
import { composeVisitMessage } from '../../mail/verbs/compose-visit-message';
import { kitchenTasks } from '../reads/visits';
import { checkedSpan, overlapError } from './slot';
import { staleVisitError } from './stale';
import { refuseTaken, taskTakenError } from './write-booking';

/**
 * Changes what a booked visit does, its length, its note, and whether planning leaves it alone; when and who stay. The
 * low side of every coil to be cleaned rides along. The kitchen is told again only when the time it takes changes.
 * @throws AppError not_found | conflict | invalid | overlap
 */
export async function changeVisit(
  { db, actor, now, baseUrl }: { db: Db; actor: Pick<Actor, 'userId'>; now: Date; baseUrl: string },
  input: ChangeVisit,
): Promise<void> {
  const visit = await db.visit.findUnique({ where: { id: input.visitId }, include: { tasks: true } });
  if (!visit) throw new AppError('not_found', 'That visit is not on file.');
  if (visit.status !== 'booked') throw new AppError('conflict', `A visit that is ${visit.status} is changed from the tablet.`);
  const standing = new Set(visit.tasks.map((t) => t.taskId));
  const all = (await kitchenTasks(db, visit.kitchenId)).map((t) => (t.onVisit?.id === visit.id ? { ...t, onVisit: null } : t));
  const chosen = withRiders(all, input.taskIds);
  if (chosen.length < input.taskIds.length)
    throw new AppError('conflict', 'A chosen task is no longer on file at this kitchen. Choose again.', 'taskIds');
  if (chosen.length === 0 && standing.size > 0) throw new AppError('invalid', 'Leave at least one task, or cancel the visit.', 'taskIds');
  refuseTaken(chosen);
  const startsAt = visit.startsAt;
  const endsAt = new Date(startsAt.getTime() + input.minutes * 60_000);
  const span = { start: startsAt.getTime(), end: endsAt.getTime() };
  // Hours and shift were agreed when it was booked; a missing skill is refused all the same.
  await checkedSpan(db, visit.kitchenId, visit.technicianId, span, chosen, { now, anyway: true });
  const added = chosen.filter((t) => !standing.has(t.id));
  const gone = visit.tasks.filter((t) => !chosen.some((c) => c.id === t.taskId));
  const longer = endsAt.getTime() !== visit.endsAt.getTime();
  const changes = changeWords(visit, input, { added: added.length, gone: gone.length, longer });
  if (changes.length === 0) return;
  try {
    await db.$transaction(async (tx) => {
      const { count } = await tx.visit.updateMany({
        where: { id: visit.id, version: input.version, status: 'booked' },
        data: {
          note: input.note,
          fixed: input.fixed,
          endsAt,
          version: { increment: 1 },
          ...(longer ? { sequence: { increment: 1 } } : {}),
        },
      });
      if (count === 0) throw await staleVisitError(tx, visit.id);
      await tx.visitTask.deleteMany({ where: { id: { in: gone.map((t) => t.id) } } });
      await tx.visitTask.createMany({ data: added.map((t) => ({ visitId: visit.id, taskId: t.id, unitId: t.unitId })) });
      await tx.visitEvent.create({
        data: { visitId: visit.id, kind: 'changed', at: now, reason: changes.join(', '), byUserId: actor.userId },
      });
      if (longer && endsAt > now) await composeVisitMessage(tx, visit.id, 'moved', { now, baseUrl });
    });
  } catch (e) {
    if (refusedBy(e) === 'visit_technician_no_overlap')
      throw await overlapError(db, visit.technicianId, startsAt, endsAt, visit.id, 'Shorten it, or move one of them.', 'minutes');
    throw taskTakenError(e) ?? e;
  }
}

function changeWords(
  visit: { note: string; fixed: boolean },
  input: ChangeVisit,
  { added, gone, longer }: { added: number; gone: number; longer: boolean },
): string[] {
  return [
    added > 0 ? `${counted(added, 'task')} added` : '',
    gone > 0 ? `${counted(gone, 'task')} taken out` : '',
    longer ? `${input.minutes} min long` : '',
    input.note !== visit.note ? 'another note' : '',
    input.fixed !== visit.fixed ? (input.fixed ? 'fixed' : 'no longer fixed') : '',
  ].filter(Boolean);
}
