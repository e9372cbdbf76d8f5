import 'server-only';
import { STORED_VISIT_EVENT } from '../../../database/stored/records';
import type { Actor } from '../../../core/people/access';
import { AppError } from '../../../core/errors';
import { refusedBy } from '../../../database/constraints';
import type { Tx } from '../../../database/client';
import { composeVisitMessage } from '../../mail/verbs/compose-visit-message';

export type BookingToWrite = {
  kitchenId: string;
  technicianId: string;
  startsAt: Date;
  endsAt: Date;
  tasks: readonly { id: string; unitId: string }[];
  note: string;
  fixed?: boolean;
  emergency?: boolean;
  reason?: string;
  /** The kitchen chose the time itself, so it is confirmed. */
  confirmed?: boolean;
};

/** Writes a booking that was checked: the visit, its history and the message to the kitchen, inside the caller's transaction. */
export async function writeBooking(
  tx: Tx,
  b: BookingToWrite,
  at: { actor: Pick<Actor, 'userId'> | null; now: Date; baseUrl: string },
): Promise<string> {
  const { kitchenId, technicianId, startsAt, endsAt, note, fixed, emergency } = b;
  const visit = await tx.visit.create({
    data: {
      kitchenId,
      technicianId,
      startsAt,
      endsAt,
      note,
      fixed,
      emergency,
      customerReply: b.confirmed ? 'confirmed' : null,
      createdById: at.actor?.userId ?? null,
      createdAt: at.now,
      tasks: { create: b.tasks.map((t) => ({ taskId: t.id, unitId: t.unitId })) },
      events: {
        create: {
          kind: 'booked',
          at: at.now,
          reason: b.reason,
          byUserId: at.actor?.userId ?? null,
          detail: STORED_VISIT_EVENT.write({ startsAt: startsAt.toISOString(), endsAt: endsAt.toISOString(), technicianId }),
        },
      },
    },
  });
  // Work put on record afterwards is no news to the kitchen.
  if (endsAt > at.now) await composeVisitMessage(tx, visit.id, 'booked', at);
  return visit.id;
}

/** A task that was chosen but stands on another visit by now. @throws AppError conflict */
export function refuseTaken(tasks: readonly { kind: string; unit: string; onVisit: unknown }[]): void {
  const taken = tasks.find((t) => t.onVisit);
  if (taken)
    throw new AppError(
      'conflict',
      `${taken.kind} of ${taken.unit} already stands on another visit. Take it out or move that visit.`,
      'taskIds',
    );
}

/** What to tell when the database refused a task that stands on another open visit; null for any other refusal. */
export const taskTakenError = (e: unknown): AppError | null =>
  refusedBy(e) === 'visit_task_one_open'
    ? new AppError('conflict', 'Someone booked one of these tasks a moment ago. Look at the kitchen again.', 'taskIds')
    : null;
