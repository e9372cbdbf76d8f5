import 'server-only';
import { AppError } from '../../../core/errors';
import { can, type Actor } from '../../../core/people/access';
import type { Tx } from '../../../database/client';

/** `holder` is whose work it is; absent while a tablet asks for its first round. */
export type DeviceInfo = { id: string; holder?: string; name: string; appVersion: string };
export type LockedDevice = { id: string; userId: string; userName: string; lastSeq: number };

export const SOMEONE_ELSE =
  'What is on this tablet was written by someone else. They must sign in to send it, or hand it to the office as a file.';

/**
 * The device's row, locked so that two requests of one device wait for each other; made on first sight.
 * Its work belongs to whoever it was first signed in as; the office may take it in for them.
 * @throws AppError not_allowed
 */
export async function lockDevice(db: Tx, actor: Actor, info: DeviceInfo, now: Date): Promise<LockedDevice> {
  const holder = info.holder ?? actor.userId;
  if (holder !== actor.userId) {
    if (!can(actor, 'read:visit')) throw new AppError('not_allowed', SOMEONE_ELSE);
    if (!(await db.user.findUnique({ where: { id: holder }, select: { id: true } })))
      throw new AppError('not_allowed', 'Whoever wrote this is not on file here.');
  }
  // An update of the row locks it; the one that made it holds it too.
  const [row] = await db.$queryRaw<LockedDevice[]>`
    WITH d AS (
      INSERT INTO "Device" (id, "userId", name, "appVersion", "lastSeenAt") VALUES (${info.id}::uuid, ${holder}::uuid, ${info.name}, ${info.appVersion}, ${now})
      ON CONFLICT (id) DO UPDATE SET name = excluded.name, "appVersion" = excluded."appVersion", "lastSeenAt" = excluded."lastSeenAt"
      RETURNING id, "userId", "lastSeq"
    )
    SELECT d.id, d."userId", u.name AS "userName", d."lastSeq" FROM d JOIN "User" u ON u.id = d."userId"`;
  if (!row) throw new AppError('not_found', 'That tablet is not on file.');
  if (row.userId !== holder) throw new AppError('not_allowed', SOMEONE_ELSE);
  return row;
}
