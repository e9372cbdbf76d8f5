import 'server-only';
import { AppError } from '../../../core/errors';
import type { Pictures } from '../../../database/pictures/picture-store.mjs';

/** The bytes of a picture that its asker may see. @throws AppError not_found | PicturesAway */
export async function wholePicture(pictures: Pictures, content: string): Promise<Uint8Array<ArrayBuffer>> {
  const bytes = await pictures.get(content);
  if (!bytes) throw new AppError('not_found', 'That picture is not on file.');
  return bytes;
}
