import { createHash } from 'node:crypto';
import type { Db } from '@/lib/database/client';
import { askOf } from '@/lib/database/pictures/in-database';
import { picturesBy } from '@/lib/database/pictures/picture-store.mjs';

/** The pictures of a shop that keeps them in its database. */
export const picturesIn = (db: Db) => picturesBy({}, askOf(db));

/** A picture on file: its bytes in the database, and the row that knows them. `sha256`: of what a device would have sent. */
export async function havePicture(
  db: Db,
  bytes: Uint8Array<ArrayBuffer>,
  over: { sha256?: string; thumbnail?: Uint8Array<ArrayBuffer> } = {},
) {
  const content = await picturesIn(db).put(bytes);
  return db.storedFile.create({
    data: {
      sha256: createHash('sha256').update(`${content} sent`).digest('hex'),
      mime: 'image/jpeg',
      width: 4,
      height: 3,
      content,
      thumbnail: bytes.slice(0, 10),
      ...over,
    },
  });
}
