import { createHash } from 'node:crypto';
import sharp from 'sharp';
import type { Random } from './random';

let drawn: Buffer[] | undefined;

/** Noise does not compress: one picture of a single piece and one of three. */
async function sources(): Promise<Buffer[]> {
  const noise = (size: number) =>
    sharp(Buffer.from(Array.from({ length: size * size * 3 }, (_, i) => (i * 2654435761) >>> 24)), {
      raw: { width: size, height: size, channels: 3 },
    })
      .jpeg({ quality: 92 })
      .toBuffer();
  return (drawn ??= [await noise(64), await noise(640)]);
}

/** A picture nobody has sent before: what follows the end of a JPEG is not part of it. */
export async function somePicture(random: Random): Promise<{ bytes: ArrayBuffer; mime: string; sha256: string }> {
  const all = await sources();
  const source = all[random.chance(0.75) ? 0 : 1] as Buffer;
  const bytes = new Uint8Array(Buffer.concat([source, Buffer.from(crypto.randomUUID())]));
  return { bytes: bytes.buffer, mime: 'image/jpeg', sha256: createHash('sha256').update(bytes).digest('hex') };
}
