import 'server-only';
import type { Actor } from '../../../core/people/access';
import { can } from '../../../core/people/access';
import { AppError } from '../../../core/errors';
import type { Db } from '../../../database/client';
import type { Pictures } from '../../../database/pictures/picture-store.mjs';
import { wholePicture } from './whole-picture';

/**
 * A picture for whoever may see it: the office, and technicians who have or had a visit in that kitchen.
 * One they may not see is as good as not there.
 * @throws AppError not_found
 */
export async function readPicture(
  { db, actor, pictures }: { db: Db; actor: Actor; pictures: Pictures },
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
  const file = await db.storedFile.findFirst({ where: { id, ...seen }, select: { mime: true, content: true, thumbnail: thumb } });
  if (!file) throw new AppError('not_found', 'That picture is not on file.');
  return { mime: file.mime, bytes: thumb ? file.thumbnail : await wholePicture(pictures, file.content) };
}
