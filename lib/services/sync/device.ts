import 'server-only';
import { AppError } from '../../core/errors';
import { can, type Actor } from '../../core/access';
import type { Tx } from '../../data/client';

export type DeviceInfo = { id: string; name: string; appVersion: string };
export type LockedDevice = { id: string; userId: string; userName: string; lastSeq: number };

/**
 * The device's row, locked so that two requests of one device wait for each other; made on first sight.
 * Its work belongs to whoever it was first signed in as; the office may take it in for them.
 * @throws AppError not_allowed
 */
export async function lockDevice(db: Tx, actor: Actor, info: DeviceInfo, now: Date): Promise<LockedDevice> {
  await db.$executeRaw`
    INSERT INTO "Device" (id, "userId", name, "appVersion", "lastSeenAt") VALUES (${info.id}::uuid, ${actor.userId}::uuid, ${info.name}, ${info.appVersion}, ${now})
    ON CONFLICT (id) DO NOTHING`;
  const [row] = await db.$queryRaw<LockedDevice[]>`
    SELECT d.id, d."userId", u.name AS "userName", d."lastSeq" FROM "Device" d JOIN "User" u ON u.id = d."userId" WHERE d.id = ${info.id}::uuid FOR UPDATE OF d`;
  if (!row) throw new AppError('not_found', 'That tablet is not on file.');
  if (row.userId !== actor.userId && !can(actor, 'read:visit'))
    throw new AppError('not_allowed', `What is on this tablet was written by ${row.userName}. Sign in as ${row.userName}, or hand it to the office as a file.`);
  await db.device.update({ where: { id: info.id }, data: { lastSeenAt: now, name: info.name, appVersion: info.appVersion } });
  return row;
}
