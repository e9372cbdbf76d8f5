import 'server-only';
import type { Actor } from '../../../core/people/access';
import { withRiders } from '../../../core/tasks';
import { AppError } from '../../../core/errors';
import { refusedBy } from '../../../database/constraints';
import type { Db } from '../../../database/client';
import { kitchenTasks } from '../reads/visits';
import type { SqueezeTake } from '../../../schemas/visits/squeeze';
import { unitsInNeed } from '../../planning/verbs/offer-squeeze';
import { bookJob, jobToBook } from '../../jobs/verbs/book-job';
import { movesToWrite } from './moves-to-write';
import { checkedSpan } from './slot';
import { refuseTaken, taskTakenError, writeBooking } from './write-booking';
import { writeMove } from './write-move';
import { fullKitchenName } from '../../../core/wording/kitchen-name';

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
  if (slot.kitchen.archived) throw new AppError('conflict', 'That kitchen is out of use. Put it back in use first.', 'kitchenId');
  const moves = await movesToWrite(db, input.moves, {
    now,
    reason: `Made room for an emergency at ${fullKitchenName(slot.kitchen)}`,
    mayMove: (visit) => !visit.fixed,
    refusals: {
      missing: 'A visit to be moved is not on file.',
      ring: 'These visits would have to change places with one another. Choose another time.',
    },
  });
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
