import 'server-only';
import type { Actor } from '../../../core/people/access';
import { moveOrder } from '../../../core/visits/move-order';
import { withRiders } from '../../../core/tasks';
import { AppError } from '../../../core/errors';
import { refusedBy } from '../../../database/constraints';
import type { Db } from '../../../database/client';
import { kitchenTasks } from '../reads/visits';
import type { SqueezeTake } from '../../../schemas/visits/squeeze';
import { unitsInNeed } from '../../planning/verbs/offer-squeeze';
import { bookJob, jobToBook } from '../../jobs/verbs/book-job';
import { checkedSpan } from './slot';
import { staleVisitError } from './stale';
import { refuseTaken, taskTakenError, writeBooking } from './write-booking';
import { writeMove, type MoveToWrite } from './write-move';

const MINUTE = 60_000;

type Ctx = { db: Db; actor: Pick<Actor, 'userId'>; now: Date; baseUrl: string };

/**
 * Books an emergency and moves the visits that make room for it, all or nothing: each moved visit keeps why and from
 * where, and its kitchen is told as of any move. The tasks chosen come with their low side; none need be.
 * @throws AppError invalid | not_found | conflict | overlap
 */
export async function squeezeEmergency(ctx: Ctx, input: SqueezeTake): Promise<{ visitId: string }> {
  const { db, now } = ctx;
  if (Math.min(input.startMs, ...input.moves.map((m) => m.startMs)) < now.getTime() - 15 * MINUTE)
    throw new AppError('conflict', 'That time is past by now. Look for a time again.');
  const tasks = withRiders(await kitchenTasks(db, input.kitchenId), input.taskIds);
  if (tasks.length < input.taskIds.length)
    throw new AppError('conflict', 'A chosen task is no longer on file at this kitchen. Choose again.', 'taskIds');
  refuseTaken(tasks);
  const units = await unitsInNeed(db, input);
  const span = { start: input.startMs, end: input.startMs + input.minutes * MINUTE };
  // Hours and days off were part of the offer.
  const at = { now, anyway: true };
  const slot = await checkedSpan(db, input.kitchenId, input.technicianId, span, [...units, ...tasks], at);
  const moves = await checkedMoves(db, input, slot.kitchen.name, at);
  const job = input.jobId ? await jobToBook(db, input.jobId, input.kitchenId) : null;
  const emergency = job === null || job.urgency === 'now' || job.urgency === 'today';
  const said = job ? `Job ${job.number}: ${input.what}` : `Emergency: ${input.what}`;
  const named = input.unitIds.length > 0 ? `\nUnits: ${units.map((u) => u.name).join(', ')}` : '';
  try {
    return await db.$transaction(
      async (tx) => {
        for (const move of moves) await writeMove(tx, move, ctx);
        const visitId = await writeBooking(
          tx,
          {
            kitchenId: input.kitchenId,
            technicianId: input.technicianId,
            startsAt: slot.startsAt,
            endsAt: slot.endsAt,
            tasks,
            note: `${said}${named}`,
            emergency,
            reason: said,
          },
          ctx,
        );
        if (job) await bookJob(tx, job, visitId, ctx);
        return { visitId };
      },
      { timeout: 30_000 },
    );
  } catch (e) {
    if (refusedBy(e) === 'visit_technician_no_overlap')
      throw new AppError('overlap', 'Someone took one of these times a moment ago; nothing was booked or moved. Look for a time again.');
    throw taskTakenError(e) ?? e;
  }
}

/** The visits that give way, in an order in which nobody is in two places on the way. */
async function checkedMoves(db: Db, input: SqueezeTake, kitchen: string, at: { now: Date; anyway: boolean }): Promise<MoveToWrite[]> {
  const moves: (MoveToWrite & { move: { from: Place; to: Place } })[] = [];
  for (const m of input.moves) {
    const visit = await db.visit.findUnique({
      where: { id: m.visitId },
      include: { tasks: { where: { open: true }, include: { task: { include: { unit: true } } } } },
    });
    if (!visit) throw new AppError('not_found', 'A visit to be moved is not on file.');
    if (visit.version !== m.version || visit.status !== 'booked' || visit.fixed) throw await staleVisitError(db, visit.id);
    const to = await checkedSpan(
      db,
      visit.kitchenId,
      m.technicianId,
      { start: m.startMs, end: m.endMs },
      visit.tasks.map((t) => t.task.unit),
      at,
    );
    const from = { startsAt: visit.startsAt, endsAt: visit.endsAt, technicianId: visit.technicianId };
    const stand = { startsAt: to.startsAt, endsAt: to.endsAt, technicianId: m.technicianId };
    moves.push({
      visitId: visit.id,
      version: m.version,
      from,
      to: stand,
      reason: `Made room for an emergency at ${kitchen}`,
      move: { from: place(from), to: place(stand) },
    });
  }
  const order = moveOrder(moves.map((m) => ({ ...m.move, write: m })));
  if (!order) throw new AppError('conflict', 'These visits would have to change places with one another. Choose another time.');
  return order.map(({ write: { move: _, ...rest } }) => rest);
}

type Place = { technicianId: string; start: number; end: number };
const place = (s: MoveToWrite['from']): Place => ({ technicianId: s.technicianId, start: s.startsAt.getTime(), end: s.endsAt.getTime() });
