import 'server-only';
import type { Actor } from '../../../core/people/access';
import { addDays } from '../../../core/calendar';
import { fromLocalDate } from '../../../core/calendar/date-column';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import { refusedBy } from '../../../database/constraints';
import type { SendAway } from '../../../schemas/people/absences';
import { writeAudit } from '../../audit/verbs/write-audit';
import { movesToWrite } from '../../visits/verbs/moves-to-write';
import { writeMove } from '../../visits/verbs/write-move';

type Ctx = { db: Db; actor: Pick<Actor, 'userId'>; now: Date; baseUrl: string };

/**
 * Writes somebody's days away and hands the chosen visits round, all or nothing; their kitchens are told as of any move,
 * and not why. What was not chosen stays where it is, marked on the week.
 * @throws AppError not_found | conflict | invalid | overlap
 */
export async function sendAway(ctx: Ctx, input: SendAway): Promise<{ absenceId: string; moved: number }> {
  const { db, actor, now } = ctx;
  const person = await db.user.findUnique({ where: { id: input.userId } });
  if (!person) throw new AppError('not_found', 'That person is not on file.');
  if (input.moves.some((m) => m.startMs < now.getTime()))
    throw new AppError('conflict', 'One of these times is past by now. Look again who can go.');
  const moves = await movesToWrite(db, input.moves, {
    now,
    reason: `${person.name} is away`,
    mayMove: (visit) => visit.technicianId === input.userId,
    refusals: {
      missing: 'A visit to be handed on is not on file.',
      ring: 'These visits would have to change places with one another. Choose fewer of them.',
    },
  });
  const startsOn = fromLocalDate(input.from);
  const endsOn = fromLocalDate(addDays(input.to, 1));
  try {
    return await db.$transaction(
      async (tx) => {
        for (const move of moves) await writeMove(tx, move, ctx);
        const timeOff = await tx.timeOff.create({ data: { userId: person.id, startsOn, endsOn, reason: input.reason } });
        const absence = await tx.absence.create({
          data: {
            userId: person.id,
            timeOffId: timeOff.id,
            startsOn,
            endsOn,
            createdById: actor.userId,
            createdAt: now,
            moves: {
              create: moves.map((m) => ({
                visitId: m.visitId,
                fromTechnicianId: m.from.technicianId,
                fromStartsAt: m.from.startsAt,
                fromEndsAt: m.from.endsAt,
                versionAfter: m.version + 1,
              })),
            },
          },
        });
        await writeAudit(tx, {
          at: now,
          userId: actor.userId,
          action: 'person.away',
          entity: 'User',
          entityId: person.id,
          detail: { from: input.from, to: input.to, moved: moves.length },
        });
        return { absenceId: absence.id, moved: moves.length };
      },
      { timeout: 30_000 },
    );
  } catch (e) {
    if (refusedBy(e) === 'visit_technician_no_overlap')
      throw new AppError('overlap', 'Someone took one of these times a moment ago; nothing was changed. Look again who can go.');
    throw e;
  }
}
