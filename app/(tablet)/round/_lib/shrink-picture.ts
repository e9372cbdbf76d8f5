/** What came from the camera, made small on the tablet: drawn anew, so that neither place nor time nor maker's notes remain. */

const LONGEST = 1600;
const QUALITY = 0.78;
/** Beyond this a tablet may run out of memory unpacking it. */
const MOST_BYTES = 40_000_000;

export type Shrunk = { bytes: ArrayBuffer; mime: string; sha256: string };
export class PictureError extends Error {}

const megabytes = (n: number) => `${Math.round(n / 1e6)} MB`;

function notReadable(file: File): string {
  if (/hei[cf]/i.test(file.type) || /\.hei[cf]$/i.test(file.name))
    return 'This browser cannot read HEIC pictures. Set the camera to “most compatible” (JPEG), or take the picture from here.';
  if (!file.type.startsWith('image/')) return `“${file.name}” is not a picture. Nothing else was touched.`;
  return 'That picture is damaged or of a kind this browser cannot read. Take it again.';
}

const hex = (bytes: ArrayBuffer): string => [...new Uint8Array(bytes)].map((b) => b.toString(16).padStart(2, '0')).join('');

/** @throws PictureError in words for whoever took it */
export async function shrinkPicture(file: File): Promise<Shrunk> {
  if (file.size > MOST_BYTES)
    throw new PictureError(
      `That picture has ${megabytes(file.size)}; at most ${megabytes(MOST_BYTES)} can be taken in. Use the camera at a lower resolution.`,
    );
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    throw new PictureError(notReadable(file));
  }
  const scale = Math.min(1, LONGEST / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', QUALITY));
  canvas.width = canvas.height = 0;
  if (!blob) throw new PictureError('The tablet ran out of memory making the picture small. Close other apps and take it again.');
  const bytes = await blob.arrayBuffer();
  return { bytes, mime: blob.type, sha256: hex(await crypto.subtle.digest('SHA-256', bytes)) };
}
