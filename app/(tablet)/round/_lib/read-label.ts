import { TAG_FORM } from '@/lib/core/equipment/limits';

/** An address that ends in #/tag/CODE, or the code alone. */
const ADDRESS = /#\/tag\/([^/?#\s]{1,120})$/;

/** The code in what a QR symbol says; null for one that is no label of ours: a maker's plate, a menu. */
export function codeOf(raw: string): string | null {
  const text = raw.trim();
  const code = (ADDRESS.exec(text)?.[1] ?? text).toUpperCase();
  return TAG_FORM.test(code) ? code : null;
}

export type LabelReader = (picture: HTMLVideoElement) => Promise<string | null>;

/** What a QR symbol (ISO/IEC 18004) in the picture says; null where there is none. Comes with the round, so it reads without signal and in every browser. */
export async function labelReader(): Promise<LabelReader> {
  const { decodeQR } = await import('./qr-reader');
  const pen = document.createElement('canvas').getContext('2d', { willReadFrequently: true });
  return (picture) => Promise.resolve(pen && decoded(decodeQR, pen, picture));
}

function decoded(decode: (image: ImageData) => string, pen: CanvasRenderingContext2D, picture: HTMLVideoElement): string | null {
  const { videoWidth: width, videoHeight: height } = picture;
  // Before its first picture a camera has no size.
  if (width === 0 || height === 0) return null;
  if (pen.canvas.width !== width || pen.canvas.height !== height) Object.assign(pen.canvas, { width, height });
  pen.drawImage(picture, 0, 0);
  try {
    return decode(pen.getImageData(0, 0, width, height));
  } catch {
    // The library says so where there is no symbol to be found.
    return null;
  }
}
