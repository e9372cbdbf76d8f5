import 'server-only';
import type { Actor } from '../../../core/people/access';
import { can } from '../../../core/people/access';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';

/**
 * A picture for whoever may see it: the office, and technicians who have or had a visit in that kitchen.
 * One they may not see is as good as not there.
 * @throws AppError not_found
 */
export async function readPicture(
  { db, actor }: { db: Db; actor: Actor },
  id: string,
  size: 'thumb' | 'full',
): Promise<{ mime: string; bytes: Uint8Array<ArrayBuffer> }> {
  const seen = can(actor, 'read:visit')
    ? {}
    : {
        photos: {
          some: {
            visit: {
              OR: [
                { technicianId: actor.userId },
                { kitchen: { visits: { some: { technicianId: actor.userId } } } },
                { devices: { some: { device: { userId: actor.userId } } } },
              ],
            },
          },
        },
      };
  const thumb = size === 'thumb';
  const file = await db.storedFile.findFirst({ where: { id, ...seen }, select: { mime: true, bytes: !thumb, thumbnail: thumb } });
  const bytes = thumb ? file?.thumbnail : file?.bytes;
  if (!file || !bytes) throw new AppError('not_found', 'That picture is not on file.');
  return { mime: file.mime, bytes };
}
