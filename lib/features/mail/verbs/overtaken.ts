import 'server-only';
import type { Tx } from '../../../database/client';

type Message = { kind: string; ics: string; visitId: string | null; createdAt: Date };

/** The longest life of a link to choose a password. */
const LINK_MS = 7 * 24 * 3_600_000;

/** The state of the visit that a message tells of: every change that a calendar must hear of counts one up. */
const sequenceOf = (ics: string): number => Number(/^SEQUENCE:(\d+)/m.exec(ics)?.[1] ?? 0);

/**
 * Why a message that waited must not go out any more, in words for the outbox; null while it still holds. A kitchen that
 * reads "moved" and then "booked" waits on the wrong day.
 */
export async function overtakenBy(db: Tx, m: Message, now: Date): Promise<string | null> {
  if (m.kind === 'password_link') return now.getTime() - m.createdAt.getTime() < LINK_MS ? null : 'The link in it is too old by now.';
  if (!m.visitId) return null;
  const visit = await db.visit.findUnique({
    where: { id: m.visitId },
    select: { status: true, sequence: true, startsAt: true, endsAt: true },
  });
  if (!visit) return 'The visit is no longer on file.';
  if (sequenceOf(m.ics) < visit.sequence) return 'The visit was changed after this was written, so it no longer holds.';
  if (m.kind === 'visit_cancelled') return visit.endsAt <= now ? 'The time of the visit is over.' : null;
  if (visit.status !== 'booked') return 'The visit has begun, is over or was cancelled.';
  return visit.startsAt <= now ? 'The time of the visit has come already.' : null;
}
