import 'server-only';
import { can, type Actor } from '../../../core/people/access';
import { AppError } from '../../../core/errors';
import type { Db, Tx } from '../../../database/client';

export type SettleFollowUp = { followUpId: string; as: 'done' | 'dropped'; note: string };
type Ctx = { db: Db | Tx; actor: Pick<Actor, 'userId' | 'role'>; now: Date };

/**
 * Closes a follow-up as done, or drops it with the reason.
 * @throws AppError not_allowed | invalid | not_found | conflict — someone was first, and is named
 */
export async function settleFollowUp({ db, actor, now }: Ctx, { followUpId, as, note }: SettleFollowUp): Promise<void> {
  if (!can(actor, 'settle:follow-up')) throw new AppError('not_allowed', 'The office settles follow-ups.');
  const said = note.trim();
  if (as === 'dropped' && said === '') throw new AppError('invalid', 'Say why nobody has to do it any more.', 'note');
  const { count } = await db.followUp.updateMany({
    where: { id: followUpId, status: 'open' },
    data: { status: as, resolvedAt: now, resolvedById: actor.userId, resolvedNote: said },
  });
  if (count > 0) return;
  const before = await db.followUp.findUnique({
    where: { id: followUpId },
    select: { status: true, resolvedNote: true, resolvedBy: { select: { name: true } } },
  });
  if (!before) throw new AppError('not_found', 'That follow-up is not on file any more. Load the page again.');
  const who = before.resolvedBy ? `${before.resolvedBy.name} has` : 'A closed visit has';
  const words = before.resolvedNote ? `: “${before.resolvedNote}”` : '';
  const how = before.status === 'dropped' ? 'dropped this one' : 'settled this one as done';
  throw new AppError('conflict', `${who} ${how} already${words}. Load the page again to see what is left.`);
}
