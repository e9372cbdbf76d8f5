import 'server-only';
import { STORED_VISIT_EVENT } from '../../../database/stored/records';
import { DEAD_LINK, wordsIn } from '../../../core/customer-words';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import { visitByLink } from '../reads/customer-links';
import { freeSlotsForVisit } from '../../visits/reads/free-slots';
import type { CustomerReply } from '../../../schemas/customers/links';

type At = { db: Db; now: Date };
type Answer = Pick<CustomerReply, 'answer' | 'startsAt' | 'note'>;

/** A kitchen confirms its visit, or asks for one of the free times offered. @throws AppError not_found | conflict */
export async function reply(ctx: At, input: CustomerReply): Promise<void> {
  const visit = await visitByLink(ctx.db, input.token, ctx.now);
  if (!visit) throw new AppError('not_found', DEAD_LINK);
  await replyTo(ctx, visit.id, input, wordsIn(visit.kitchen.customer.language).yours.another.taken);
}

/** Writes down what a kitchen answers to a visit that it was shown. @throws AppError conflict — with `taken` as its words */
export async function replyTo({ db, now }: At, visitId: string, { answer, startsAt, note }: Answer, taken: string): Promise<void> {
  const asked = answer === 'other_time' ? new Date(startsAt ?? NaN) : null;
  if (asked) {
    const offered = await freeSlotsForVisit(db, visitId, now);
    if (!offered.some((s) => s.start === asked.getTime())) throw new AppError('conflict', taken, 'startsAt');
  }
  await db.$transaction([
    db.visit.update({
      where: { id: visitId },
      data: { customerReply: answer, replyNote: note, replyStartsAt: asked, version: { increment: 1 } },
    }),
    db.visitEvent.create({
      data: {
        visitId,
        at: now,
        kind: asked ? 'asked_other_time' : 'confirmed',
        reason: note,
        detail: STORED_VISIT_EVENT.write(asked ? { startsAt: asked.toISOString() } : {}),
      },
    }),
  ]);
}
