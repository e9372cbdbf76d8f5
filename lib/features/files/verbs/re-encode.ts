import 'server-only';
import sharp from 'sharp';
import { AppError } from '../../../core/errors';

const LONGEST = 2000;
const THUMB = { width: 320, height: 240 };
/** A picture that unpacks to more than this is an attack or a mistake. */
const MOST_PIXELS = 60_000_000;
const FORMATS_TAKEN = new Set(['jpeg', 'png', 'webp']);

export type Picture = {
  mime: 'image/jpeg';
  width: number;
  height: number;
  bytes: Uint8Array<ArrayBuffer>;
  thumbnail: Uint8Array<ArrayBuffer>;
};

/**
 * A picture made anew from what was sent: its type is told by its content, and nothing but the picture survives, neither
 * position nor anything hidden after its end.
 * @throws AppError invalid
 */
export async function reEncoded(sent: Uint8Array): Promise<Picture> {
  const open = () => sharp(sent, { limitInputPixels: MOST_PIXELS, failOn: 'error' });
  try {
    const { format, hasAlpha } = await open().metadata();
    if (!FORMATS_TAKEN.has(format)) throw new AppError('invalid', 'That is not a JPEG, PNG or WebP picture.');
    const upright = open().rotate();
    const whole = await (hasAlpha ? upright.flatten({ background: '#ffffff' }) : upright)
      .resize({ width: LONGEST, height: LONGEST, fit: 'inside', withoutEnlargement: true })
      .jpeg({ quality: 80 })
      .toBuffer({ resolveWithObject: true });
    const thumbnail = await sharp(whole.data)
      .resize({ ...THUMB, fit: 'cover' })
      .jpeg({ quality: 70 })
      .toBuffer();
    return {
      mime: 'image/jpeg',
      width: whole.info.width,
      height: whole.info.height,
      bytes: new Uint8Array(whole.data),
      thumbnail: new Uint8Array(thumbnail),
    };
  } catch (error) {
    // Memory run short (libvips says so) is no fault of the picture: it is to be sent again.
    if (error instanceof AppError || /out of memory/i.test(String(error))) throw error;
    throw new AppError('invalid', 'The picture is damaged or is no picture.');
  }
}
