import 'server-only';
import { can, type Actor } from '../../../core/people/access';
import { AppError } from '../../../core/errors';
import type { Db, Tx } from '../../../database/client';

export type SettleEntry = { entryId: string; note: string };
type Ctx = { db: Db | Tx; actor: Pick<Actor, 'userId' | 'role'>; now: Date };

/**
 * Someone in the office has looked at an entry that was not simply filed. What it says stays as it is.
 * @throws AppError not_allowed | not_found | conflict — someone was first, and is named
 */
export async function settleEntry({ db, actor, now }: Ctx, { entryId, note }: SettleEntry): Promise<void> {
  if (!can(actor, 'settle:entry')) throw new AppError('not_allowed', 'The office looks at these.');
  const { count } = await db.entry.updateMany({
    where: { id: entryId, outcome: { not: 'applied' }, settledAt: null },
    data: { settledAt: now, settledById: actor.userId, settledNote: note },
  });
  if (count > 0) return;
  const before = await db.entry.findUnique({
    where: { id: entryId },
    select: { settledNote: true, settledBy: { select: { name: true } } },
  });
  if (!before?.settledBy) throw new AppError('not_found', 'That entry does not wait for anyone.');
  const quoted = before.settledNote ? `: “${before.settledNote}”` : '';
  throw new AppError(
    'conflict',
    `${before.settledBy.name} has looked at this one already${quoted}. Load the page again to see what is left.`,
  );
}
