import 'server-only';
import { counted } from '../../../core/wording/counted';
import { AppError } from '../../../core/errors';
import type { Tx } from '../../../database/client';

/** Visits stand on the board under whoever does them: nobody stops doing visits with some still open. @throws AppError conflict */
export async function refuseWithOpenVisits(tx: Tx, person: { id: string; name: string }, field?: string): Promise<void> {
  const open = await tx.visit.count({ where: { technicianId: person.id, status: { in: ['booked', 'started'] } } });
  if (open > 0)
    throw new AppError('conflict', `${person.name} has ${counted(open, 'open visit')}. Give them to someone else first.`, field);
}
