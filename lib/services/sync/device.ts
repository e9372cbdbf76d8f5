import 'server-only';
import { AppError } from '../../core/errors';
import { can, type Actor } from '../../core/access';
import type { Tx } from '../../data/client';

/** `holder` is whose work it is; absent while a tablet asks for its first round. */
export type DeviceInfo = { id: string; holder?: string; name: string; appVersion: string };
export type LockedDevice = { id: string; userId: string; userName: string; lastSeq: number };

const SOMEONE_ELSE = 'What is on this tablet was written by someone else. They must sign in to send it, or hand it to the office as a file.';

/**
 * The device's row, locked so that two requests of one device wait for each other; made on first sight.
 * Its work belongs to whoever it was first signed in as; the office may take it in for them.
 * @throws AppError not_allowed
 */
export async function lockDevice(db: Tx, actor: Actor, info: DeviceInfo, now: Date): Promise<LockedDevice> {
  const holder = info.holder ?? actor.userId;
  const takesInForOthers = can(actor, 'read:visit');
  if (holder !== actor.userId && !takesInForOthers) throw new AppError('not_allowed', SOMEONE_ELSE);
  if (!(await db.user.findUnique({ where: { id: holder }, select: { id: true } }))) throw new AppError('not_allowed', 'Whoever wrote this is not on file here.');
  await db.$executeRaw`
    INSERT INTO "Device" (id, "userId", name, "appVersion", "lastSeenAt") VALUES (${info.id}::uuid, ${holder}::uuid, ${info.name}, ${info.appVersion}, ${now})
    ON CONFLICT (id) DO NOTHING`;
  const [row] = await db.$queryRaw<LockedDevice[]>`
    SELECT d.id, d."userId", u.name AS "userName", d."lastSeq" FROM "Device" d JOIN "User" u ON u.id = d."userId" WHERE d.id = ${info.id}::uuid FOR UPDATE OF d`;
  if (!row) throw new AppError('not_found', 'That tablet is not on file.');
  if (row.userId !== holder) throw new AppError('not_allowed', SOMEONE_ELSE);
  await db.device.update({ where: { id: info.id }, data: { lastSeenAt: now, name: info.name, appVersion: info.appVersion } });
  return row;
}
