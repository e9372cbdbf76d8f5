import 'server-only';
import { AppError } from '../../../core/errors';
import { rolesWith, type Role } from '../../../core/people/access';
import type { Tx } from '../../../database/client';
import { lockAll } from '../../../database/lock';

export const keepsThePeople = (role: Role): boolean => rolesWith('manage:people').includes(role);

/** A shop is never left without an owner who can sign in. Held until the transaction ends. @throws AppError conflict */
export async function keepAnOwner(tx: Tx, without: string, field?: string): Promise<void> {
  await lockAll(tx, 'owners');
  const others = await tx.user.count({ where: { role: { in: rolesWith('manage:people') }, active: true, id: { not: without } } });
  if (others === 0) throw new AppError('conflict', 'This is the only active owner. Make someone else an owner first.', field);
}
