import 'server-only';
import { AppError } from '../../core/errors';
import type { Tx } from '../../data/client';
import type { LockedVisit } from './context';

type Row = LockedVisit & { technician: string; given: boolean; office: boolean };

/**
 * The visit of an entry, its row locked until the entry is in. Who may write on it: its technician, the office, and
 * a device it was once handed to.
 * @throws AppError not_found | not_allowed
 */
export async function visitFor(db: Tx, visitId: string, userId: string, deviceId: string): Promise<{ visit: LockedVisit; notes: string[] }> {
  const [row] = await db.$queryRaw<Row[]>`
    SELECT v.id, v."kitchenId", v."technicianId", v.status::text AS status, k."timeZone", v."arrivedAt", v."signedAt", t.name AS technician,
      EXISTS (SELECT 1 FROM "DeviceVisit" g WHERE g."deviceId" = ${deviceId}::uuid AND g."visitId" = v.id) AS given,
      EXISTS (SELECT 1 FROM "User" u WHERE u.id = ${userId}::uuid AND u.role <> 'technician') AS office
    FROM "Visit" v JOIN "Kitchen" k ON k.id = v."kitchenId" JOIN "User" t ON t.id = v."technicianId"
    WHERE v.id = ${visitId}::uuid FOR UPDATE OF v`;
  if (!row) throw new AppError('not_found', 'That visit is not on file.');
  const own = row.technicianId === userId;
  if (!own && !row.given && !row.office) throw new AppError('not_allowed', `That visit is ${row.technician}’s and was never on this tablet.`);
  const notes: string[] = [];
  if (!own) notes.push(`The visit is ${row.technician}’s now.`);
  if (row.status === 'cancelled') notes.push('The office had cancelled the visit.');
  return { visit: row, notes };
}
