import 'server-only';
import { STORED_VISIT_EVENT } from '../../../database/stored/records';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import { visitByLink } from '../reads/customer-links';
import { freeSlotsForVisit } from '../../visits/reads/free-slots';
import type { CustomerReply } from '../../../schemas/links';

/** A kitchen confirms its visit, or asks for one of the free times offered. @throws AppError not_found | conflict */
export async function reply({ db, now }: { db: Db; now: Date }, input: CustomerReply): Promise<void> {
  const visit = await visitByLink(db, input.token, now);
  if (!visit) throw new AppError('not_found', 'This link is no longer good. Use the one in the latest message, or phone the shop.');
  const asked = input.answer === 'other_time' ? new Date(input.startsAt ?? NaN) : null;
  if (asked) {
    const offered = await freeSlotsForVisit(db, visit.id, now);
    if (!offered.some((s) => s.start === asked.getTime()))
      throw new AppError('conflict', 'That time was taken a moment ago. Choose another.', 'startsAt');
  }
  await db.$transaction([
    db.visit.update({
      where: { id: visit.id },
      data: { customerReply: input.answer, replyNote: input.note, replyStartsAt: asked, version: { increment: 1 } },
    }),
    db.visitEvent.create({
      data: {
        visitId: visit.id,
        at: now,
        kind: asked ? 'asked_other_time' : 'confirmed',
        reason: input.note,
        detail: STORED_VISIT_EVENT.write(asked ? { startsAt: asked.toISOString() } : {}),
      },
    }),
  ]);
}
