import 'server-only';
import type { Actor } from '../../../core/people/access';
import { AppError, isAppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import { attempt } from '../../../database/savepoint';
import { writeAudit } from '../../audit/verbs/write-audit';
import { writeMove } from '../../visits/verbs/write-move';
import { fullKitchenName } from '../../../core/wording/kitchen-name';

type Ctx = { db: Db; actor: Pick<Actor, 'userId'>; now: Date; baseUrl: string };
export type TakenBack = { back: number; stayed: { visitId: string; kitchen: string; reason: string }[] };

/**
 * The person is here after all: the days off go, and each visit goes back where it stood, but for those that somebody
 * changed since, whose old time is past or has been given away. Those stay and are named.
 * @throws AppError not_found | conflict
 */
export function undoAway(ctx: Ctx, absenceId: string): Promise<TakenBack> {
  const { db, actor, now } = ctx;
  return db.$transaction(
    async (tx) => {
      const { count } = await tx.absence.updateMany({ where: { id: absenceId, undoneAt: null }, data: { undoneAt: now } });
      if (count === 0) throw new AppError('conflict', 'That was taken back already.');
      const absence = await tx.absence.findUniqueOrThrow({
        where: { id: absenceId },
        include: {
          user: { select: { name: true } },
          moves: {
            include: { visit: { include: { kitchen: { select: { name: true, customer: { select: { name: true } } } } } } },
            orderBy: { fromStartsAt: 'asc' },
          },
        },
      });
      const out: TakenBack = { back: 0, stayed: [] };
      const left = absence.moves.flatMap((m) => {
        const { visit } = m;
        const reason =
          visit.status !== 'booked'
            ? 'it is no longer open'
            : visit.version !== m.versionAfter
              ? 'somebody changed it since'
              : m.fromStartsAt <= now
                ? 'its old time is past'
                : null;
        if (reason) out.stayed.push({ visitId: visit.id, kitchen: fullKitchenName(visit.kitchen), reason });
        return reason ? [] : [m];
      });
      for (const m of left) {
        const { visit } = m;
        const failed = await attempt(tx, () =>
          writeMove(
            tx,
            {
              visitId: visit.id,
              version: visit.version,
              from: { startsAt: visit.startsAt, endsAt: visit.endsAt, technicianId: visit.technicianId },
              to: { startsAt: m.fromStartsAt, endsAt: m.fromEndsAt, technicianId: m.fromTechnicianId },
              reason: `${absence.user.name} is here after all`,
            },
            ctx,
          ),
        );
        if (failed === null) out.back++;
        else
          out.stayed.push({
            visitId: visit.id,
            kitchen: fullKitchenName(visit.kitchen),
            reason: isAppError(failed) ? 'somebody changed it just now' : 'its old time has been given away',
          });
      }
      if (absence.timeOffId) await tx.timeOff.deleteMany({ where: { id: absence.timeOffId } });
      await writeAudit(tx, {
        at: now,
        userId: actor.userId,
        action: 'person.away_undone',
        entity: 'User',
        entityId: absence.userId,
        detail: { back: out.back, stayed: out.stayed.length },
      });
      return out;
    },
    { timeout: 30_000 },
  );
}
