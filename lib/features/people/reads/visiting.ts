import 'server-only';
import { takesVisits, VISITING_ROLES } from '../../../core/people/access';
import type { Prisma, Tx } from '../../../database/client';

/** Who can be booked: technicians, and whoever else is said to go to kitchens too. */
export const TAKES_VISITS = { OR: [{ role: { in: VISITING_ROLES } }, { alsoVisits: true }] } satisfies Prisma.UserWhereInput;

/** Whether somebody goes to kitchens. */
export async function goesToKitchens(db: Tx, userId: string): Promise<boolean> {
  const u = await db.user.findUnique({ where: { id: userId }, select: { role: true, alsoVisits: true } });
  return u !== null && takesVisits(u);
}
